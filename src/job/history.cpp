// SPDX-License-Identifier: MIT
// [history]: earlier yield maps go through the same rooms as this season's records, cut up by this season's method
// areas; earlier results are read as they stand.
#include "job/steps.hpp"

#include "base/text.hpp"
#include "quartercut/error.hpp"

#include <fmt/format.h>

#include <utility>

namespace quartercut::job {
namespace {

EarlierMap read_map(const Season& season, const std::string& map, const JobOptions& options) {
    const Season then = season_of_earlier_map(season, map);
    EarlierMap out;
    out.name = map;
    out.standardised = standardise(then, read(then));
    out.cleaned = clean(then, out.standardised, clean_options(then, options));
    for (std::size_t f = 0; f < out.standardised.fields.size(); ++f)
        out.zoned.push_back(zone(then, out.standardised.fields[f], out.cleaned.fields[f], zone_options(then)));
    return out;
}

/// Records name the file at fault but not the table; the same words in [points] would be searched for there.
std::string fault_words(const std::string& map, const std::string& told) {
    const std::string here =
        replace_all(replace_all(told, "files under [points]", "maps"), "[points.columns]", "[history.columns]");
    return fmt::format("[history] maps, \"{}\": {}", map, here);
}

EarlierMap read_map_named(const Season& season, const std::string& map, const JobOptions& options) {
    try {
        return read_map(season, map, options);
    } catch (const InputError& error) {
        throw InputError(fault_words(map, error.what()));
    } catch (const DataError& error) {
        throw DataError(fault_words(map, error.what()));
    }
}

/// Runs the work; what it refuses becomes one fault.
template <class Work>
void take_fault(const std::string& where, const Work& work, Issues& out) {
    try {
        work();
    } catch (const InputError& error) {
        out.push_back({"input-refused", Severity::error, where, error.what()});
    } catch (const DataError& error) {
        out.push_back({"data-refused", Severity::error, where, error.what()});
    }
}

/// Faults of a map itself: those of fields and methods are told for this season already.
void add_map_faults(const Season& season, const std::string& map, const Issues& of_season, Issues& out) {
    const std::size_t before = out.size();
    for (const Issue& issue : read_for_faults(season_of_earlier_map(season, map)).issues) {
        const auto is_same = [&](const Issue& told) { return told.message == issue.message; };
        if (issue.severity != Severity::error || std::any_of(of_season.begin(), of_season.end(), is_same)) continue;
        out.push_back({issue.code, Severity::error, map, fault_words(map, issue.message)});
    }
    const bool season_stops = std::any_of(of_season.begin(), of_season.end(),
                                          [](const Issue& issue) { return issue.severity == Severity::error; });
    if (out.size() > before || season_stops) return;
    take_fault(
        map, [&] { (void)read_map_named(season, map, {}); }, out);
}

const char* const maps_need_areas =
    "[history] maps need method areas on the map: earlier records do not say which land is cut "
    "which way this year. Take methods from polygons ([methods] file and column), or remove maps.";

} // namespace

std::vector<InputFile> records_as_history(std::vector<InputFile> inputs) {
    std::erase_if(inputs, [](const InputFile& input) { return input.role != "points"; });
    for (InputFile& input : inputs)
        input.role = "history";
    return inputs;
}

History read_history(Results& results, const JobOptions& options) {
    History out;
    const Season& season = results.season;
    if (!season.history) return out;
    std::vector<InputFile>& inputs = results.standardised.inputs;
    if (season.methods_from.source == MethodSource::points && !season.history->maps.empty())
        throw InputError(maps_need_areas);
    for (const std::string& map : season.history->maps) {
        say(options, "reading the earlier map " + map);
        out.maps.push_back(read_map_named(season, map, options));
        for (InputFile& input : records_as_history(out.maps.back().standardised.inputs))
            inputs.push_back(std::move(input));
    }
    out.seasons = read_earlier_results(season, inputs);
    return out;
}

} // namespace quartercut::job

namespace quartercut {

Issues history_faults(const Season& season, const Issues& of_season) {
    Issues out;
    if (!season.history) return out;
    if (season.methods_from.source == MethodSource::points && !season.history->maps.empty())
        return {{"input-refused", Severity::error, "[history]", job::maps_need_areas}};
    for (const std::string& map : season.history->maps)
        job::add_map_faults(season, map, of_season, out);
    for (const std::string& results : season.history->results) {
        Season one = season;
        one.history->results = {results};
        std::vector<InputFile> inputs;
        job::take_fault(
            results, [&] { (void)read_earlier_results(one, inputs); }, out);
    }
    return out;
}

} // namespace quartercut
