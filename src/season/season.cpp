// SPDX-License-Identifier: MIT
// The season file from text to a checked Season: the top of the file here, its tables in the other files of the room.
#include "quartercut/season.hpp"

#include "base/text.hpp"
#include "quartercut/error.hpp"
#include "season/choices.hpp"
#include "season/faults.hpp"
#include "season/inputs.hpp"
#include "season/plans.hpp"

#include <cmath>
#include <fmt/format.h>
#include <fstream>
#include <sstream>

namespace quartercut {
namespace season {
namespace {

constexpr std::uintmax_t most_bytes = 4U << 20U;

toml::table parse_toml(const std::string& text, const std::string& name) {
    try {
        return toml::parse(text, name);
    } catch (const toml::parse_error& error) {
        const auto& begin = error.source().begin;
        const std::string_view why = error.description();
        const bool escape = why.find("escape") != std::string_view::npos;
        throw InputError(fmt::format("{}:{}:{}: this is not TOML: {}. {}", name, begin.line, begin.column, why,
                                     escape ? "Write paths with / or between single quotes."
                                            : "Text stands in quotes, lists in brackets, and the file is UTF-8."));
    }
}

/// Pounds from kilograms without the last digit's noise: "50 lb" is 50, not 50.000000000000007.
double pounds(double mass_kg) { return std::round(mass_kg / kg_per_pound * 1e9) / 1e9; }

std::optional<double> read_basis(const TableReader& root) {
    const std::optional<double> basis =
        root.quantity("basis", {Dimension::moisture, 0.0, 40.0, "10.0 %", "more than 0 % and less than 40 %"});
    if (basis && (*basis == 0.0 || *basis == 40.0))
        root.fail_at("basis", "is out of range: more than 0 % and less than 40 % is allowed");
    return basis;
}

std::optional<double> read_bushel(const TableReader& root) {
    // No crop's bushel is lighter or heavier by far; the limits catch typing errors (judgement).
    const std::optional<double> mass_kg =
        root.quantity("bushel", {Dimension::mass, 5.0 * kg_per_pound, 150.0 * kg_per_pound, "50 lb", "5 lb to 150 lb"});
    if (!mass_kg) return std::nullopt;
    return pounds(*mass_kg);
}

std::vector<std::string> crop_names() {
    std::vector<std::string> names;
    for (const Crop& crop : crop_table()) {
        names.push_back(crop.name);
        names.insert(names.end(), crop.also.begin(), crop.also.end());
    }
    return names;
}

[[noreturn]] void fail_unknown_crop(const TableReader& root, const std::string& written) {
    const std::optional<std::string> nearest = nearest_word(written, crop_names());
    const std::string hint = nearest ? fmt::format("did you mean \"{}\"? ", *nearest) : "";
    root.fail_at("crop", fmt::format("is \"{}\", which is not in the crop table; {}A crop not in it needs both basis "
                                     "(\"10.0 %\") and bushel (\"50 lb\")",
                                     written, hint));
}

/// The plain word covers classes with different limits in law: say which one was taken.
void note_assumed_class(Season& season, const Crop& crop) {
    if (lower(season.crop) != "barley") return;
    season.issues.push_back(
        {"crop-class-assumed", Severity::note, "season file, crop",
         fmt::format(
             "\"barley\" is taken as feed barley, with a basis of {} %; the law sets 13.5 % for malting and 14.0 % "
             "for hulless food barley. Write crop = \"malting-barley\" or \"hulless-barley\", or give basis.",
             format_fixed(crop.basis_pct, 1))});
}

void read_crop(const TableReader& root, Season& season) {
    season.crop = root.required_text("crop", "it sets the basis moisture and the bushel weight, such as \"canola\"");
    const std::optional<double> basis = read_basis(root);
    const std::optional<double> bushel = read_bushel(root);
    const Crop* crop = find_crop(season.crop);
    if (crop == nullptr && !(basis && bushel)) fail_unknown_crop(root, season.crop);
    season.basis_pct = basis.value_or(crop != nullptr ? crop->basis_pct : 0.0);
    season.bushel_lb = bushel.value_or(crop != nullptr ? crop->bushel_lb : 0.0);
    if (season.basis_pct <= 0.0)
        root.fail_at("crop", fmt::format("is \"{}\", for which the law sets no dry moisture; add basis = \"16.0 %\" or "
                                         "what your buyer uses",
                                         season.crop));
    if (season.bushel_lb <= 0.0)
        root.fail_at("crop", fmt::format("is \"{}\", for which no bushel weight is published; add bushel = \"... lb\"",
                                         season.crop));
    if (crop == nullptr) return;
    season.yield_low_t_ha = crop->yield_low_t_ha;
    season.yield_high_t_ha = crop->yield_high_t_ha;
    if (!basis) note_assumed_class(season, *crop);
}

YieldUnit read_units(const TableReader& root) {
    const std::optional<std::string> written = root.text("units");
    if (!written) return YieldUnit::bu_ac;
    const std::optional<YieldUnit> unit = yield_unit_from(*written);
    if (!unit) root.fail_at("units", fmt::format("is \"{}\"; write bu/ac, t/ha, kg/ha or lb/ac", *written));
    return *unit;
}

int read_year(const TableReader& root) {
    const std::optional<int> year = root.whole_number("year", 1980, 2100);
    if (!year) root.fail(root.place(), "\"year\" is missing: it is the year of the harvest, such as year = 2025");
    return *year;
}

void check_baseline(const TableReader& root, const Season& season) {
    if (season.baseline_code() >= 0) return;
    std::vector<std::string> names;
    for (const Method& method : season.methods)
        names.push_back(method.name);
    const std::optional<std::string> nearest = nearest_word(season.baseline, names);
    root.fail_at("baseline",
                 fmt::format("is \"{}\", which has no [[method]] table; {}", season.baseline,
                             nearest ? fmt::format("did you mean \"{}\"?", *nearest) : "known: " + join(names, ", ")));
}

std::string text_of(const std::filesystem::path& file) {
    std::ifstream stream(file, std::ios::binary);
    std::ostringstream text;
    // Never more than could be a season file, also from a device or a pipe.
    std::string block(1U << 16U, '\0');
    std::uintmax_t bytes = 0;
    while (stream && bytes <= most_bytes) {
        stream.read(block.data(), static_cast<std::streamsize>(block.size()));
        text.write(block.data(), stream.gcount());
        bytes += static_cast<std::uintmax_t>(stream.gcount());
    }
    if (bytes > most_bytes)
        throw InputError(fmt::format("{}: this is too large for a season file. Was a data file named?", file.string()));
    if (!stream.eof())
        throw InputError(fmt::format("{}: the file cannot be read. Check its permissions.", file.string()));
    return text.str();
}

} // namespace
} // namespace season

std::vector<StrataInput> Season::strata_tables() const {
    if (!strata) return {};
    std::vector<StrataInput> tables{*strata};
    tables.insert(tables.end(), strata_across.begin(), strata_across.end());
    return tables;
}

int Season::method_code(const std::string& name) const {
    for (std::size_t i = 0; i < methods.size(); ++i)
        if (methods[i].name == name) return static_cast<int>(i);
    return -1;
}

Season parse_season(const std::string& text, const std::filesystem::path& name) {
    using namespace season;
    const toml::table document = parse_toml(text, name.string());
    const TableReader root(document, "", "", name.string(), {1, 1});
    Season season;
    season.file = name;
    season.text = text;
    season.title = root.text_or("title", name.stem().string());
    attempt([&] { season.year = read_year(root); });
    // Without a crop a bushel is any weight, so that columns in bushels are not told as a second fault.
    if (!attempt([&] { read_crop(root, season); })) season.bushel_lb = 60.0;
    attempt([&] { season.units = read_units(root); });
    attempt([&] { season.baseline = root.required_text("baseline", "it is the method the others are compared with"); });
    attempt([&] { season.fields = read_fields(root, season.issues); });
    attempt([&] { season.points = read_points(root, season.bushel_lb); });
    const bool methods_known = attempt([&] { season.methods = read_methods(root); });
    if (methods_known && !season.baseline.empty()) attempt([&] { check_baseline(root, season); });
    if (methods_known) attempt([&] { season.methods_from = read_methods_from(root, season.methods); });
    attempt([&] { read_strata(root, season); });
    attempt([&] { season.tickets = read_tickets(root); });
    attempt([&] { season.trial = read_trial(root, season.methods_from.source); });
    attempt([&] { season.cleaning = read_cleaning(root); });
    attempt([&] { season.comparison = read_comparison(root); });
    attempt([&] { season.history = read_history(root, season.bushel_lb); });
    if (methods_known) attempt([&] { season.money = read_money(root, season.methods, season.bushel_lb); });
    attempt([&] { season.loss_counts = read_loss_counts(root); });
    if (methods_known) attempt([&] { season.weather = read_weather(root, season.methods); });
    if (methods_known) attempt([&] { season.next_year = read_next_year(root, season); });
    return season;
}

Issues season_faults(const std::filesystem::path& file) {
    const season::FaultGatherer gatherer;
    season::attempt([&] { (void)read_season(file); });
    Issues out;
    for (const std::string& message : gatherer.faults())
        out.push_back({"season-refused", Severity::error, file.filename().string(), message});
    return out;
}

Season read_season(const std::filesystem::path& file) {
    std::error_code error;
    const auto status = std::filesystem::status(file, error);
    if (!std::filesystem::exists(status))
        throw InputError(
            fmt::format("{}: there is no such file. Name the season file, for example season.toml.", file.string()));
    if (std::filesystem::is_directory(status))
        throw InputError(fmt::format("{}: this is a folder. Name the season file in it, for example {}.", file.string(),
                                     (file / "season.toml").string()));
    return parse_season(season::text_of(file), file);
}

} // namespace quartercut
