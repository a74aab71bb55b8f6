// SPDX-License-Identifier: MIT
// Tables of tokens and words (tokens.hpp).
#include "report/tokens.hpp"

#include <initializer_list>
#include <string_view>
#include <utility>

namespace quartercut::report {
namespace {

using fmt::arg;
using Pairs = std::initializer_list<std::pair<std::string_view, const char*>>;

std::string found_in(const Pairs& pairs, const std::string& token) {
    for (const auto& [known, words] : pairs)
        if (token == known) return words;
    return token;
}

} // namespace

std::string source_text(const std::string& token) {
    const auto& words = spoken().tokens;
    const std::string of = error_source::calibration_of;
    if (token.starts_with(of)) {
        const std::string machine = token.substr(of.size());
        const bool unnamed = machine.starts_with("machine"); // the name given where the records name none
        return fill(unnamed ? words.calibration_of : words.calibration_of_machine, arg("machine", machine));
    }
    return found_in({{error_source::sampling, words.sampling},
                     {error_source::moisture, words.moisture},
                     {error_source::dockage, words.dockage},
                     {error_source::cut_width, words.cut_width},
                     {error_source::timing, words.timing},
                     {error_source::all_years, words.all_years}},
                    token);
}

std::string units_text(int n, const std::string& token) {
    const auto& words = spoken().tokens;
    const std::string found = found_in({{"pairs", words.pairs},
                                        {"blocks", words.blocks},
                                        {"split", words.split},
                                        {"fields", words.fields},
                                        {"two groups", words.two_groups}},
                                       token);
    return found == token ? std::to_string(n) + " " + token : fill(found.c_str(), arg("n", n));
}

std::string fragile_text(const std::string& token) {
    const auto& words = spoken().tokens;
    return found_in({{"fragile", words.fragile}, {"moderate", words.moderate}, {"sturdy", words.sturdy}}, token);
}

std::string calibration_text(const std::string& token) {
    const auto& words = spoken().tokens;
    return found_in({{"none", words.none},
                     {"tickets", words.tickets},
                     {"tickets of mixed loads", words.tickets_mixed},
                     {"tickets of the machine's other methods", words.tickets_other},
                     {"tickets per strip", words.tickets_per_strip},
                     {"neighbouring passes", words.neighbouring_passes}},
                    token);
}

std::string step_text(const std::string& token) {
    const auto& words = spoken().tokens;
    return found_in({{"as logged", words.as_logged},
                     {"off the crop", words.off_the_crop},
                     {"lag", words.lag},
                     {"moisture_lag", words.moisture_lag},
                     {"no reading", words.no_reading},
                     {"merge", words.merge},
                     {"speed", words.speed},
                     {"turns", words.turns},
                     {"ramps", words.ramps},
                     {"coverage", words.coverage},
                     {"short_passes", words.short_passes},
                     {"limits", words.limits},
                     {"neighbours", words.neighbours},
                     {"edge_passes", words.edge_passes},
                     {"tickets and machine_offsets", words.tickets_and_offsets}},
                    token);
}

std::string role_text(const std::string& token) {
    const auto& words = spoken().tokens;
    return found_in({{"season", words.role_season},
                     {"fields", words.role_fields},
                     {"points", words.role_points},
                     {"methods", words.role_methods},
                     {"strata", words.role_strata},
                     {"tickets", words.role_tickets},
                     {"history", words.role_history},
                     {"loss counts", words.role_losses},
                     {"seed samples", words.role_samples},
                     {"weather", words.role_weather},
                     {"next_year", words.role_next_year}},
                    token);
}

std::string severity_text(Severity severity) {
    const auto& words = spoken().tokens;
    switch (severity) {
    case Severity::note:
        return words.note;
    case Severity::warning:
        return words.warning;
    case Severity::error:
        break;
    }
    return words.error;
}

std::string zone_reason_text(const std::string& token) {
    if (token.empty()) return spoken().page.not_cut;
    const auto& words = spoken().zone;
    return found_in(
        {{"no pass", words.no_pass}, {"no method area", words.no_method_area}, {"no stratum", words.no_stratum}},
        token);
}

std::string stage_token_text(const std::string& token) {
    const auto& words = spoken().counting;
    return found_in({{loss_stage_word(LossStage::before_cutting), words.at_before},
                     {loss_stage_word(LossStage::behind_header), words.at_header},
                     {loss_stage_word(LossStage::behind_machine), words.at_machine}},
                    token);
}

} // namespace quartercut::report
