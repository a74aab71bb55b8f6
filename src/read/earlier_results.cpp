// SPDX-License-Identifier: MIT
// Earlier comparison.json files -> gains per field and year.
#include "base/earlier_words.hpp"
#include "quartercut/error.hpp"
#include "quartercut/history.hpp"
#include "read/input_files.hpp"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <cmath>
#include <fmt/format.h>
#include <fstream>
#include <optional>

namespace quartercut {
namespace {

using Json = nlohmann::json;

constexpr const char* schema = "quartercut.comparison/1";

std::optional<double> number_at(const Json& object, const char* key) {
    const auto found = object.find(key);
    if (found == object.end() || !found->is_number()) return std::nullopt;
    const double value = found->get<double>();
    return std::isfinite(value) ? std::optional(value) : std::nullopt;
}

std::string text_at(const Json& object, const char* key) {
    const auto found = object.find(key);
    return found != object.end() && found->is_string() ? found->get<std::string>() : std::string();
}

/// A list under `key`; empty where there is none.
Json list_at(const Json& object, const char* key) {
    const auto found = object.find(key);
    return found != object.end() && found->is_array() ? *found : Json::array();
}

/// Lines of the budget that all fields of the year have in common.
double shared_u(const Json& contrast) {
    double sum = 0.0;
    for (const Json& line : list_at(contrast, "budget"))
        if (line.is_object() && line.value("shared", false))
            sum += std::pow(number_at(line, "u_t_ha").value_or(0.0), 2);
    return std::sqrt(sum);
}

bool says_machine_is_method(const Json& contrast) {
    const auto flag = contrast.find("machine_is_method");
    if (flag != contrast.end() && flag->is_boolean()) return flag->get<bool>();
    std::vector<std::string> leaves_out;
    for (const Json& sentence : list_at(contrast, "leaves_out"))
        if (sentence.is_string()) leaves_out.push_back(sentence.get<std::string>());
    return said_machine_is_method(leaves_out);
}

std::optional<EarlierGain> gain_of(const Json& contrast, const std::string& field, const std::string& evidence) {
    if (!contrast.is_object() || !text_at(contrast, "stratum").empty()) return std::nullopt;
    const auto gain = number_at(contrast, "gain_t_ha");
    const auto se = number_at(contrast, "se_t_ha");
    const auto df = number_at(contrast, "df");
    if (!gain || !se || !df || *se <= 0.0 || *df <= 0.0) return std::nullopt;
    const std::string own = text_at(contrast, "evidence");
    EarlierGain out{
        field, text_at(contrast, "method"), text_at(contrast, "baseline"), own.empty() ? evidence : own, *gain, *se,
        *df,   shared_u(contrast)};
    if (out.method.empty() || out.baseline.empty()) return std::nullopt;
    out.machine_is_method = says_machine_is_method(contrast);
    return out;
}

Json parse(const reading::FoundFile& file) {
    std::ifstream stream(file.path, std::ios::binary);
    Json json = Json::parse(stream, nullptr, false);
    if (json.is_discarded() || !json.is_object() || text_at(json, "schema") != schema)
        throw InputError(
            fmt::format("{} ([history] results): this is not the comparison.json of an earlier run (schema "
                        "\"{}\"). Name the file in that year's results folder.",
                        file.shown, schema));
    return json;
}

std::vector<EarlierGain> gains_in(const Json& json, const reading::FoundFile& file) {
    std::vector<EarlierGain> out;
    try {
        for (const Json& field : list_at(json, "fields"))
            for (const Json& contrast : list_at(field, "contrasts"))
                if (auto gain = gain_of(contrast, text_at(field, "name"), text_at(field, "evidence")))
                    out.push_back(std::move(*gain));
    } catch (const Json::exception&) {
        throw InputError(fmt::format("{} ([history] results): a value in its contrasts is of the wrong kind. Name the "
                                     "file as that year's run wrote it.",
                                     file.shown));
    }
    return out;
}

EarlierSeason season_from(const reading::FoundFile& file) {
    const Json json = parse(file);
    EarlierSeason out;
    out.file = file.shown;
    const Json season = json.value("season", Json::object());
    if (!season.is_object() || !season.contains("year") || !season["year"].is_number_integer())
        throw InputError(fmt::format("{} ([history] results): it does not say of which year it is.", file.shown));
    constexpr std::int64_t first_year = 1900, last_year = 2200;
    const auto year = season["year"].get<std::int64_t>();
    if (year < first_year || year > last_year)
        throw InputError(fmt::format("{} ([history] results): the year {} cannot be.", file.shown, year));
    out.year = static_cast<int>(year);
    out.crop = text_at(season, "crop");
    out.basis_pct = number_at(season, "basis_pct").value_or(0.0);
    out.gains = gains_in(json, file);
    return out;
}

/// A year counted twice would look like agreement between years.
void check_year(const Season& season, const EarlierSeason& one, const std::vector<EarlierSeason>& others) {
    if (one.year == season.year)
        throw InputError(fmt::format(
            "{} ([history] results) is of {}, this season's own year. Name earlier years only.", one.file, one.year));
    for (const EarlierSeason& other : others)
        if (other.year == one.year)
            throw InputError(fmt::format("{} and {} ([history] results) are both of {}. Name one file a year.",
                                         other.file, one.file, one.year));
}

} // namespace

std::vector<EarlierSeason> read_earlier_results(const Season& season, std::vector<InputFile>& inputs) {
    std::vector<EarlierSeason> out;
    if (!season.history) return out;
    for (const std::string& pattern : season.history->results)
        for (const reading::FoundFile& file : reading::find_files(season, pattern, "results under [history]")) {
            EarlierSeason one = season_from(file);
            check_year(season, one, out);
            inputs.push_back(reading::fingerprint(file, "history"));
            inputs.back().rows = one.gains.size();
            out.push_back(std::move(one));
        }
    std::sort(out.begin(), out.end(), [](const EarlierSeason& a, const EarlierSeason& b) { return a.year < b.year; });
    return out;
}

} // namespace quartercut
