// SPDX-License-Identifier: MIT
// Plans as JSON and CSV.
#include "quartercut/write_plan.hpp"

#include "write/csv_text.hpp"
#include "write/plan_json.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <array>
#include <fstream>

namespace quartercut {
namespace write {
namespace {

Json outlook_json(const Outlook& o) {
    return Json{{"method", o.method},
                {"gain_t_ha", number(o.gain_t_ha)},
                {"prediction95_t_ha", interval(o.prediction95_t_ha)},
                {"net_cents_ha", number(o.net_cents_ha)},
                {"p_pays", number(o.p_pays)},
                {"break_even_t_ha", number(o.break_even_t_ha)},
                {"shortfall_cents_ha", number(o.shortfall_cents_ha)},
                {"why_unknown", o.why_unknown},
                {"rests_on", o.rests_on},
                {"years", o.years}};
}

Json one_way_json(const OneWay& way) {
    return Json{{"method", way.method},
                {"expected_cents", number(way.expected_cents)},
                {"p_ahead", number(way.p_ahead)},
                {"within_limits", way.within_limits}};
}

Json limit_json(const LimitCost& limit) {
    return Json{{"limit", limit.limit}, {"cost_cents", number(limit.cost_cents)}};
}

Json candidate_json(const CandidateField& f) {
    return Json{{"name", f.name},
                {"area_ha", number(f.area_ha)},
                {"method", f.method},
                {"trial", f.trial},
                {"outlooks", array_of(f.outlooks, outlook_json)},
                {"trial_se_t_ha", number(f.trial_se_t_ha)},
                {"trial_precision_from", f.trial_precision_from},
                {"trial_value_cents", number(f.trial_value_cents)},
                {"margin_cents", number(f.margin_cents)},
                {"margin_without_shares_cents", number(f.margin_without_shares_cents)},
                {"combine_from", text_or_null(f.combine_from)},
                {"combine_to", text_or_null(f.combine_to)},
                {"reasons", f.reasons},
                {"would_change", f.would_change}};
}

Json design_json(const DesignResult& d) {
    return Json{{"pairs", d.pairs},
                {"passes", d.passes},
                {"baseline_passes", d.baseline_passes},
                {"fits", d.why_not.empty()},
                {"why_not", d.why_not},
                {"judged_on", d.judged_on},
                {"area_ha", number(d.area_ha)},
                {"extra_minutes", number(d.minutes)},
                {"se_t_ha", number(d.se_t_ha)},
                {"false_finding", number(d.false_finding)},
                {"power", number(d.power)},
                {"power_if_weighed", number(d.power_weighed)},
                {"detectable_t_ha", number(d.detectable_t_ha)}};
}

Json strip_json(const TrialStrip& s) {
    return Json{{"strip", s.order},   {"pair", s.pair},       {"method", s.method},    {"passes", s.passes},
                {"guards", s.guards}, {"width_m", s.width_m}, {"length_m", s.length_m}};
}

std::string dollars(const std::optional<double>& cents) {
    return cents ? fmt::format("{:.2f}", *cents / 100.0) : std::string();
}

} // namespace
} // namespace write

std::string field_of_layout(const std::filesystem::path& folder) {
    std::ifstream in(folder / "layout.json", std::ios::binary);
    if (!in) return {};
    const auto there = nlohmann::json::parse(in, nullptr, false);
    if (!there.is_object() || !there.contains("field") || !there["field"].is_string()) return {};
    return there["field"].get<std::string>();
}

std::string layout_json(const TrialLayout& layout) {
    using namespace write;
    const TrialWish& wish = layout.wish;
    return to_text(Json{{"schema", "quartercut.layout/1"},
                        {"field", layout.field},
                        {"answer", layout.answer},
                        {"method", wish.method},
                        {"baseline", wish.baseline},
                        {"difference_t_ha", number(wish.difference_t_ha)},
                        {"why_difference", wish.why_difference},
                        {"u_instruments_t_ha", number(wish.u_instruments_t_ha)},
                        {"direction_deg", number(layout.direction_deg)},
                        {"direction_from", layout.direction_from},
                        {"simulated_on", layout.simulated_on},
                        {"simulations", wish.simulations},
                        {"seed", wish.choice.seed},
                        {"chosen", layout.chosen < 0 ? Json(nullptr) : Json(layout.chosen)},
                        {"designs", array_of(layout.designs, design_json)},
                        {"strips", array_of(layout.strips, strip_json)},
                        {"notes", layout.notes}});
}

std::string layout_season_lines(const TrialLayout& layout) {
    return fmt::format("# For next year's season file: the strips of {} are its method areas as they are.\n"
                       "[methods]\nfile   = \"strips.gpkg\"\nlayer  = \"strips\"\ncolumn = \"method\"\n\n"
                       "[trial]\nrandomised = true   # a coin with seed {} put the ways in order within each pair\n"
                       "pairs      = \"block\"\n",
                       layout.field, layout.wish.choice.seed);
}

std::string choice_csv(const Choice& choice) {
    using namespace write;
    std::string out = "field,area_ha,variety,proposed,trial,method,expected_gain_t_ha,prediction95_low_t_ha,"
                      "prediction95_high_t_ha,net_per_ha,currency,p_pays,trial_se_t_ha,trial_value,margin,combine_from,"
                      "combine_to,notes,why,would_change\r\n";
    for (const CandidateField& f : choice.fields)
        for (const Outlook& o : f.outlooks) {
            const auto& prediction = o.prediction95_t_ha;
            const std::array<std::string, 20> cells{csv_cell(f.name),
                                                    fmt::format("{:.2f}", f.area_ha),
                                                    csv_cell(f.variety),
                                                    csv_cell(f.method),
                                                    f.trial ? "yes" : "no",
                                                    csv_cell(o.method),
                                                    csv_number(o.gain_t_ha),
                                                    prediction ? csv_number((*prediction)[0]) : "",
                                                    prediction ? csv_number((*prediction)[1]) : "",
                                                    dollars(o.net_cents_ha),
                                                    csv_cell(choice.currency),
                                                    csv_number(o.p_pays),
                                                    csv_number(f.trial_se_t_ha),
                                                    dollars(f.trial_value_cents),
                                                    dollars(f.margin_cents),
                                                    f.combine_from.value_or(""),
                                                    f.combine_to.value_or(""),
                                                    csv_cell(fmt::format("{}", fmt::join(f.notes, "; "))),
                                                    csv_cell(fmt::format("{}", fmt::join(f.reasons, " "))),
                                                    csv_cell(fmt::format("{}", fmt::join(f.would_change, " ")))};
            out += fmt::format("{}\r\n", fmt::join(cells, ","));
        }
    return out;
}

std::string choice_json(const Choice& choice) {
    using namespace write;
    const Json shares = array_of(choice.shares, [](const MethodShare& s) {
        return Json{{"method", s.method}, {"area_ha", number(s.area_ha)}, {"share", number(s.share)}};
    });
    return to_text(Json{{"schema", "quartercut.choose/1"},
                        {"year", choice.year},
                        {"currency", choice.currency},
                        {"fields", array_of(choice.fields, candidate_json)},
                        {"shares", shares},
                        {"plan_value_cents", number(choice.plan_value_cents)},
                        {"plan_money_cents", number(choice.plan_money_cents)},
                        {"one_way", array_of(choice.one_way, one_way_json)},
                        {"limits", array_of(choice.limits, limit_json)},
                        {"all_limits_cents", number(choice.all_limits_cents)},
                        {"trials_value_cents", number(choice.trials_value_cents)},
                        {"trials_cost_cents", number(choice.trials_cost_cents)},
                        {"greedy_was_best", choice.greedy_was_best},
                        {"checked_all_sets", choice.checked_all_sets},
                        {"skipped", choice.skipped},
                        {"gaps", choice.gaps},
                        {"notes", choice.notes}});
}

std::string counting_sheet_csv(const Season& season, const std::vector<std::string>& fields) {
    using namespace write;
    constexpr int places = 4; // four places a way and field: three degrees of freedom
    std::string out = "field,method,place,when,seeds,grams,tray_area_ft2,seed_weight_g_per_1000,cut_width_ft,"
                      "discharge_width_ft,note\r\n";
    for (const std::string& field : fields)
        for (const Method& method : season.methods)
            for (int place = 1; place <= places; ++place)
                for (const LossStage stage :
                     {LossStage::before_cutting, LossStage::behind_header, LossStage::behind_machine}) {
                    const bool machine = stage == LossStage::behind_machine;
                    out += fmt::format("{},{},{},{},,,,,{},,\r\n", csv_cell(field), csv_cell(method.name), place,
                                       loss_stage_word(stage),
                                       machine && method.cut_width_m
                                           ? fmt::format("{:.1f}", *method.cut_width_m / m_per_foot)
                                           : std::string());
                }
    return out;
}

} // namespace quartercut
