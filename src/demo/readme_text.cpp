// SPDX-License-Identifier: MIT
// The README of the demo folder: what was made up, how, and the true answer.
#include "demo/demo_files.hpp"

#include <fmt/format.h>

namespace quartercut::demo {

namespace {

const char* method_word(int method) { return demo_method_names[static_cast<std::size_t>(method)]; }
const char* machine_word(int machine) { return demo_machine_names[static_cast<std::size_t>(machine)]; }

struct MethodTruth {
    double cut_m2 = 0.0, basis_kg = 0.0;
    int areas = 0;
    [[nodiscard]] double yield_t_ha() const { return cut_m2 > 0.0 ? basis_kg / cut_m2 * 10.0 : 0.0; }
};

MethodTruth method_truth(const DemoField& field, int method) {
    MethodTruth truth;
    for (const DemoArea& area : field.areas) {
        if (area.method != method) continue;
        truth.cut_m2 += area.cut_m2;
        truth.basis_kg += area.cut_basis_kg;
        ++truth.areas;
    }
    return truth;
}

std::string layout_word(const DemoField& field) {
    if (!field.plan.areas.front().block.empty()) return fmt::format("{} strip pairs", field.areas.size() / 2);
    return field.areas.size() == 2 ? "split" : "whole";
}

std::string yield_cell(const MethodTruth& truth) {
    return truth.areas == 0 ? "" : fmt::format("{:.3f}", truth.yield_t_ha());
}

std::string head(const DemoSeason& season) {
    return fmt::format(
        R"(# An invented season

The farm, the land, the machines and every number here are invented. The fields lie in the open water of a large lake
at 53 degrees north, so they can be nobody's; the legal labels name a township (128) that would lie north of 60 degrees,
where none was ever surveyed. `quartercut demo FOLDER` (seed {}, one record every {:g} s) writes this folder, byte for
byte, all but the picture. The data are given to the public domain.

## The true answer

**Cutting standing yields {:+.3f} t/ha ({:+.2f} bu/ac) against swathing**, clean grain at 10 % moisture, everywhere.
The plain difference of record means, as the raw map shows it, is **{:+.3f} t/ha**: machine A reads low and cut most of
the standing crop, machine B reads high and picked up most of the windrows.

)",
        season.options.seed, season.options.record_interval_s, season.options.true_gain_t_ha,
        season.options.true_gain_t_ha / 0.0560425, season.raw_gain_t_ha);
}

std::string field_table(const DemoSeason& season) {
    std::string text =
        R"(What was really gathered (t/ha of the land cut, clean, at 10 % moisture). The difference in a field is not the true
gain: the land and the passes differ too. That is what a comparison has to see through.

| field | layout | hectares | swathed | standing | difference |
|---|---|---|---|---|---|
)";
    for (const DemoField& field : season.fields) {
        const MethodTruth swathed = method_truth(field, demo_swathed), standing = method_truth(field, demo_standing);
        const bool both = swathed.areas > 0 && standing.areas > 0;
        text += fmt::format("| {} | {} | {:.1f} | {} | {} | {} |\n", field.plan.name, layout_word(field),
                            field.area_m2 / 1e4, yield_cell(swathed), yield_cell(standing),
                            both ? fmt::format("{:+.3f}", standing.yield_t_ha() - swathed.yield_t_ha()) : "");
    }
    return text;
}

std::string monitor_table(const DemoSeason& season) {
    std::string text = R"(
## What is wrong with the records

| machine | method | monitor reads | dry-mass factor that sets it right | moisture reads | grain arrives after |
|---|---|---|---|---|---|
)";
    for (const DemoMonitor& m : season.monitors) {
        text +=
            fmt::format("| {} | {} | x {:.3f} | {:.4f} | {:+.2f} points | {:.1f} s ({:.1f} s + smear of {:.1f} s) |\n",
                        machine_word(m.machine), method_word(m.method), m.reading, m.true_factor, m.moisture_bias,
                        m.lag_s(), m.transport_s, m.mixing_s);
    }
    return text;
}

std::string notes() {
    return R"(
- The factor takes logged flow x duration, brought to 10 % with the logged moisture, to clean dry grain. It holds the
  monitor's error, the moisture sensor's bias and the dockage (about 2 %), which the monitor weighs and nobody is paid for.
- Grain reaches the flow sensor late: first the transport, then an exponential smear. Flow is the mean over the record's
  interval; position and time are those of the interval's end. The moisture sensor lags 4 s more. Passes therefore start
  and end in ramps, and grain still comes while the header is up.
- Both machines' flow readings drift by about half a percent over hours and scatter by about 4 % from record to record.
- Passes overlap by 10 cm. A method area that is not a whole number of passes wide ends with a part-width pass; half of
  those were logged with the full width.
- Machines slow down, sometimes stop, lift the header over sloughs and at the ends, and turn outside the field. Positions
  wander by 6 cm (A) and 15 cm (B), with a rare jump of 30 m on B.
- Swathed grain came off drier (about 8.3 %) than standing (about 9.9 %), and on other days.
- "Willow" has headlands in no method area and a wet low spot; "Road" and "Corner" lost a corner to a road; some strip
  trials have margins at both sides that belong to neither method.
- In "Long Half" machine B picked up all windrows and machine A cut all standing strips: only the tickets can tell machine
  from method there. In "Road" and "Stone" the land gets better towards one side of the one boundary.
- Tickets are a sample of the loads (at most four for each field, machine and method): net weight with dockage in, scale
  error 0.1 %, moisture to 0.1 point, dockage to 0.1 point. A load starts and ends with an empty machine.

## How the land was made

Yield is the field's mean, times one plus three smooth random surfaces (scales 250, 90 and 35 m; 7, 6 and 5 %), less wet
spots, plus a trend across the passes where there is one, plus 1.2 % from pass to pass, plus the true gain where the
crop stood. Header rectangles of the real width take it from one-metre cells in the order of time, each square metre once;
what they take is what the sensors and the scale receive, to the gram.
)";
}

} // namespace

std::string readme_md(const DemoSeason& season) {
    return head(season) + field_table(season) + monitor_table(season) + notes();
}

} // namespace quartercut::demo
