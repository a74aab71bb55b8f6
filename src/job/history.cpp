// SPDX-License-Identifier: MIT
// [history]: earlier yield maps go through the same rooms as this season's records, cut up by this season's method
// areas; earlier results are read as they stand.
#include "job/steps.hpp"

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
EarlierMap read_map_named(const Season& season, const std::string& map, const JobOptions& options) {
    const auto words = [&](const std::exception& error) {
        std::string told = error.what();
        for (const auto& [there, here] : {std::pair<std::string, std::string>{"files under [points]", "maps"},
                                          {"[points.columns]", "[history.columns]"}})
            for (std::size_t at = told.find(there); at != std::string::npos; at = told.find(there, at + here.size()))
                told.replace(at, there.size(), here);
        return fmt::format("[history] maps, \"{}\": {}", map, told);
    };
    try {
        return read_map(season, map, options);
    } catch (const InputError& error) {
        throw InputError(words(error));
    } catch (const DataError& error) {
        throw DataError(words(error));
    }
}

void add_inputs(const EarlierMap& map, std::vector<InputFile>& inputs) {
    for (InputFile input : map.standardised.inputs)
        if (input.role == "points") {
            input.role = "history";
            inputs.push_back(std::move(input));
        }
}

} // namespace

History read_history(Results& results, const JobOptions& options) {
    History out;
    const Season& season = results.season;
    if (!season.history) return out;
    std::vector<InputFile>& inputs = results.standardised.inputs;
    if (season.methods_from.source == MethodSource::points && !season.history->maps.empty())
        throw InputError(
            "[history] maps need method areas on the map: earlier records do not say which land is cut "
            "which way this year. Take methods from polygons ([methods] file and column), or remove maps.");
    for (const std::string& map : season.history->maps) {
        say(options, "reading the earlier map " + map);
        out.maps.push_back(read_map_named(season, map, options));
        add_inputs(out.maps.back(), inputs);
    }
    out.seasons = read_earlier_results(season, inputs);
    return out;
}

} // namespace quartercut::job
