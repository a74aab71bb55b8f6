// SPDX-License-Identifier: MIT
// The first rules. They look at one record at a time and at nothing that depends on the method's name.
#include "clean/basic_rules.hpp"

#include "base/words/words.hpp"

#include <fmt/format.h>

namespace quartercut::cleaning {
namespace {

bool possible_moisture(double moisture_pct) { return moisture_pct > 0.0 && moisture_pct < 100.0; }

bool moisture_needed(const FieldWork& work, const Setting& setting, std::size_t i) {
    return setting.options->moisture_correction && work.records().at_basis[i] == 0;
}

} // namespace

double basis_mass_kg(const FieldWork& work, const Setting& setting, std::size_t i, bool moisture_recorded) {
    if (!moisture_recorded || !moisture_needed(work, setting, i)) return work.mass_kg[i];
    const double moisture = work.out->moisture_pct[i];
    if (!possible_moisture(moisture) || !std::isfinite(work.mass_kg[i])) return nan_value;
    return mass_at_moisture(work.mass_kg[i], moisture, setting.season->basis_pct);
}

void find_missing_moisture(FieldWork& work, const Setting& setting) {
    const Records& r = work.records();
    for (MachineBlock& block : work.blocks) {
        std::size_t with = 0, wet = 0;
        for (std::size_t i = block.begin; i < block.end; ++i) {
            if (r.at_basis[i]) continue;
            ++wet;
            if (std::isfinite(r.moisture_pct[i])) ++with;
        }
        block.moisture_recorded = with > 0;
        if (with > 0 || wet == 0) continue;
        work.out->issues.push_back({"moisture-not-recorded", Severity::warning,
                                    fill(spoken().places.field_machine, fmt::arg("field", work.field->name),
                                         fmt::arg("machine", setting.input->machines[at(block.machine)])),
                                    spoken().clean.moisture_not_recorded});
    }
}

void mark_off_the_crop(FieldWork& work) {
    const Records& r = work.records();
    for (std::size_t i = 0; i < work.size(); ++i) {
        if (r.off_field[i])
            work.remove(i, Removal::off_field);
        else if (r.method[i] < 0)
            work.remove(i, Removal::no_method);
        else if (r.header_up[i])
            work.remove(i, Removal::header_up);
    }
}

void mark_without_reading(FieldWork& work, const Setting& setting) {
    const Records& r = work.records();
    for (const MachineBlock& block : work.blocks) {
        for (std::size_t i = block.begin; i < block.end; ++i) {
            if (work.unseen[i] && setting.options->steps.ramps)
                work.remove(i, work.unseen[i] == 1 ? Removal::pass_end : Removal::pass_start);
            else if (!(work.mass_kg[i] > 0.0))
                work.remove(i, Removal::no_flow);
            else if (!(r.distance_m[i] > 0.0) || !(r.width_m[i] > 0.0))
                work.remove(i, Removal::no_travel);
            else if (std::isnan(basis_mass_kg(work, setting, i, block.moisture_recorded)))
                work.remove(i, Removal::impossible_moisture);
            else if (work.jump[i])
                work.remove(i, Removal::position_jump);
        }
    }
}

void set_basis_mass(FieldWork& work, const Setting& setting) {
    for (const MachineBlock& block : work.blocks) {
        for (std::size_t i = block.begin; i < block.end; ++i) {
            const double mass = basis_mass_kg(work, setting, i, block.moisture_recorded);
            work.out->mass_basis_kg[i] = std::isfinite(mass) ? mass : 0.0;
        }
    }
}

void set_logged_area(FieldWork& work) {
    const Records& r = work.records();
    for (std::size_t i = 0; i < work.size(); ++i) {
        const double area = r.distance_m[i] * r.width_m[i];
        work.out->area_m2[i] = area > 0.0 && !r.header_up[i] && !work.copy[i] ? area : 0.0;
    }
}

} // namespace quartercut::cleaning
