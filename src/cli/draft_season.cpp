// SPDX-License-Identifier: MIT
// Writing the draft, table by table. Nothing is guessed silently: a line that would be a guess stands there as a
// comment marked QUESTION, and `check` stops until it is answered.
#include "cli/draft_season.hpp"

#include "base/text.hpp"
#include "cli/draft_questions.hpp"
#include "quartercut/crop.hpp"

#include <algorithm>
#include <array>
#include <fmt/format.h>
#include <map>
#include <set>

namespace quartercut::cli {
namespace {

constexpr std::array<Meaning, 16> k_meanings{Meaning::yield,     Meaning::flow,     Meaning::moisture, Meaning::speed,
                                             Meaning::distance,  Meaning::duration, Meaning::width,    Meaning::time,
                                             Meaning::heading,   Meaning::machine,  Meaning::header,   Meaning::load,
                                             Meaning::longitude, Meaning::latitude, Meaning::date,     Meaning::clock};

/// Text for a comment: one line.
std::string one_line(std::string text) {
    std::replace_if(
        text.begin(), text.end(), [](char c) { return static_cast<unsigned char>(c) < 0x20U || c == 0x7F; }, ' ');
    return text;
}

class Draft {
public:
    Draft(const FolderSurvey& survey, const std::string& title) : survey_(survey), title_(title) {}
    SeasonDraft made() {
        write_top();
        write_fields();
        write_points();
        write_methods();
        write_strata();
        write_tickets();
        write_trial();
        write_left_over();
        return {head() + text_, std::move(questions_), stops_};
    }

private:
    void add(const std::string& line) { text_ += line + "\n"; }
    /// A question: told in the summary, and in the text above `line`, which waits for the answer.
    void ask(const std::string& question, const std::string& line) {
        stops_ = true;
        ask_without_stop(question, line);
    }
    void ask(const OpenQuestion& open) {
        stops_ = stops_ || open.stops;
        ask_without_stop(open.question, open.line);
    }
    /// The same where the work can go on without the answer, not as well.
    void ask_without_stop(const std::string& question, const std::string& line) {
        questions_.push_back(one_line(question));
        add("# QUESTION: " + one_line(question));
        if (!line.empty()) add("# " + line);
    }
    [[nodiscard]] std::string head() const {
        std::string out =
            "# A draft by `quartercut start`. It says what was found and why. A word the program does not "
            "know is an error\n# that names the nearest word it does know; paths are relative to this file.\n";
        out += questions_.empty()
                   ? "# No question is open. Look it over, then run `quartercut check` on it.\n\n"
                   : fmt::format("# {} open: look for QUESTION, set the line below it right (without its #) and delete "
                                 "the QUESTION line.\n\n",
                                 questions_.size() == 1 ? "1 question is"
                                                        : fmt::format("{} questions are", questions_.size()));
        return out;
    }

    void write_top();
    void write_year();
    void write_crop();
    void write_fields();
    void write_points();
    void write_files(const std::vector<const FolderEntry*>& records);
    void write_crs(const std::vector<const FolderEntry*>& records);
    void write_columns(const std::vector<const FolderEntry*>& records);
    void write_times(const std::vector<const FolderEntry*>& records);
    void write_column(Meaning meaning, const ColumnChoice& choice, const std::string& reason, bool flow_gives_mass);
    void write_layer(const FolderEntry& entry);
    void write_methods();
    void write_method_names(const std::vector<std::string>& values);
    void write_strata();
    void write_tickets();
    void write_trial();
    void write_left_over();
    /// The values of the column that tells the methods, wherever it is.
    [[nodiscard]] std::vector<std::string> method_values() const;
    [[nodiscard]] const FolderEntry* boundaries() const {
        const auto found = survey_.of(Part::boundaries);
        return found.empty() ? nullptr : found.front();
    }
    /// Column of boundaries or records that holds ways of cutting.
    [[nodiscard]] static std::string method_column_of(const FolderEntry& entry);

    const FolderSurvey& survey_;
    std::string title_, text_;
    std::vector<std::string> questions_;
    bool stops_ = false;
    int year_ = 0; ///< of the newest records; 0: no times tell it
};

std::string Draft::method_column_of(const FolderEntry& entry) {
    for (const auto& [column, values] : entry.sketch.values)
        if (!values.empty() && std::all_of(values.begin(), values.end(), is_method_word)) return column;
    return {};
}

std::vector<std::string> Draft::method_values() const {
    std::set<std::string> values;
    for (const FolderEntry* entry : survey_.of(Part::method_areas)) {
        const auto& found = entry->sketch.values.at(entry->name_column);
        values.insert(found.begin(), found.end());
    }
    const auto take = [&](const FolderEntry& entry) {
        const std::string column = method_column_of(entry);
        if (column.empty()) return;
        const auto& found = entry.sketch.values.at(column);
        values.insert(found.begin(), found.end());
    };
    if (values.empty() && boundaries() != nullptr) take(*boundaries());
    if (values.empty())
        for (const FolderEntry* entry : survey_.of(Part::records))
            take(*entry);
    return {values.begin(), values.end()};
}

void Draft::write_top() {
    add(fmt::format("title    = {}", toml_text(title_)));
    write_year();
    write_crop();
    const std::vector<std::string> values = method_values();
    const auto swathed = std::find_if(values.begin(), values.end(), [](const std::string& value) {
        return lower(value).find("swath") != std::string::npos || lower(value).find("windrow") != std::string::npos;
    });
    if (values.size() < 2)
        ask("which way of cutting are the others compared with?", "baseline = \"swathed\"");
    else
        add(fmt::format("baseline = {}   # the way the others are compared with; change it if you think of another",
                        toml_text(swathed != values.end() ? *swathed : values.front())));
    add("units    = \"bu/ac\"         # what the report speaks: bu/ac, t/ha, kg/ha or lb/ac\n");
}

void Draft::write_year() {
    std::set<int> years;
    for (const FolderEntry* entry : survey_.of(Part::records))
        if (entry->sketch.year) years.insert(*entry->sketch.year);
    if (years.empty()) return ask("which year was the harvest?", "year     = 2025");
    year_ = *years.rbegin();
    if (years.size() == 1) return add(fmt::format("year     = {}            # the year of the records' times", year_));
    ask(fmt::format("the records are of several years ({} to {}); which harvest is this? Files of other years than {} "
                    "have a # before them below.",
                    *years.begin(), year_, year_),
        fmt::format("year     = {}", year_));
}

void Draft::write_crop() {
    std::set<std::string> crops;
    for (const FolderEntry& entry : survey_.entries)
        for (const auto& [column, values] : entry.sketch.values)
            if (lower(column).find("crop") != std::string::npos)
                for (const std::string& value : values)
                    if (find_crop(lower(value)) != nullptr) crops.insert(lower(value));
    if (crops.size() == 1)
        return add(fmt::format("crop     = {}        # as a column of the files says; it sets basis and bushel",
                               toml_text(*crops.begin())));
    ask(crops.empty() ? "which crop is it? It sets the standard moisture and the weight of a bushel."
                      : "the files name several crops; which one is this season about?",
        fmt::format("crop     = {}", toml_text(crops.empty() ? "canola" : *crops.begin())));
}

/// file, and layer where the file has several.
void Draft::write_layer(const FolderEntry& entry) {
    add(fmt::format("file  = {}", toml_text(entry.sketch.file)));
    if (entry.layers > 1) add(fmt::format("layer = {}", toml_text(entry.sketch.layer)));
    const bool is_degrees_by_format = lower(entry.sketch.file).find("json") != std::string::npos;
    if (entry.sketch.crs.empty() && !is_degrees_by_format)
        ask(fmt::format("{} does not say its coordinate system. Is it longitude and latitude (EPSG:4326), or which?",
                        entry.sketch.file),
            "crs   = \"EPSG:4326\"");
}

void Draft::write_fields() {
    add("# The fields: one polygon each.");
    add("[fields]");
    const FolderEntry* const entry = boundaries();
    if (entry == nullptr)
        return ask("no file of field boundaries was found; which is it?", "file  = \"fields.gpkg\"\n");
    add("# " + one_line(entry->reason));
    write_layer(*entry);
    add(fmt::format("name  = {}", toml_text(entry->name_column)));
    std::string columns;
    for (const std::string_view wanted : {"legal", "variety"})
        for (const std::string& column : entry->sketch.columns)
            if (lower(column) == wanted) columns += fmt::format("{} = {}\n", wanted, toml_text(column));
    text_ += (columns.empty() ? "" : "[fields.columns]\n" + columns) + "\n";
}

void Draft::write_files(const std::vector<const FolderEntry*>& records) {
    add("files = [");
    std::set<std::string> seen;
    for (const FolderEntry* entry : records) {
        if (!seen.insert(entry->sketch.file).second) continue;
        const bool other = entry->sketch.year && *entry->sketch.year != year_;
        add(fmt::format(
            "    {}{},{}", other ? "# " : "", toml_text(entry->sketch.file),
            other ? fmt::format("   # of {}; earlier years may stand under [history], maps", *entry->sketch.year)
                  : std::string()));
    }
    add("]");
    std::set<std::string> layers;
    for (const FolderEntry* entry : records)
        if (entry->layers > 1) layers.insert(entry->sketch.layer);
    if (layers.size() == 1) add(fmt::format("layer = {}", toml_text(*layers.begin())));
    if (layers.size() > 1)
        ask(fmt::format("which of the layers {} holds the records?", join({layers.begin(), layers.end()}, ", ")),
            fmt::format("layer = {}", toml_text(*layers.begin())));
}

void Draft::write_crs(const std::vector<const FolderEntry*>& records) {
    const OpenPlaces places = open_places(records);
    if (!places.open.empty()) return ask(crs_question(places));
    if (!places.named.empty()) add("crs   = \"EPSG:4326\"   # the columns are called longitude and latitude");
}

void Draft::write_column(Meaning meaning, const ColumnChoice& choice, const std::string& reason, bool flow_gives_mass) {
    std::string inside = fmt::format("column = {}", toml_text(choice.column));
    if (!choice.unit.empty()) inside += fmt::format(", unit = {}", toml_text(choice.unit));
    if (!choice.moisture.empty()) inside += fmt::format(", moisture = {}", toml_text(choice.moisture));
    const std::string word = meaning_word(meaning);
    const bool yield_is_spare = meaning == Meaning::yield && flow_gives_mass;
    const bool is_open = choice.unit.empty() && (needs_unit(meaning) || meaning == Meaning::moisture);
    if (is_open && !yield_is_spare) return ask(unit_question(meaning, choice, ""));
    if (meaning == Meaning::yield && choice.moisture.empty() && !flow_gives_mass)
        return ask(fmt::format("is the yield in column '{}' wet (as cut) or dry (already at the standard moisture)?",
                               choice.column),
                   fmt::format("{} = {{ {}, moisture = \"wet\" }}", word, inside));
    const bool sound = !needs_unit(meaning) || !choice.unit.empty();
    // The header's value that means raised cannot be seen from here; left alone, it is found or told.
    add(fmt::format("{}{} = {{ {} }}   # {}", sound && meaning != Meaning::header ? "" : "# ", word, inside,
                    one_line(reason)));
}

void Draft::write_columns(const std::vector<const FolderEntry*>& records) {
    add("[points.columns]           # found by their names; what is not listed here is found anew in each file");
    bool flow_gives_mass = true;
    for (const FolderEntry* entry : records)
        flow_gives_mass = flow_gives_mass && entry->sketch.meanings.contains(Meaning::flow);
    for (const Meaning meaning : k_meanings) {
        std::map<std::pair<std::string, std::string>, const FolderEntry*> ways;
        for (const FolderEntry* entry : records)
            if (const auto found = entry->sketch.meanings.find(meaning); found != entry->sketch.meanings.end())
                ways.emplace(std::pair(found->second.column, found->second.unit), entry);
        if (ways.size() == 1) {
            const FolderEntry& entry = *ways.begin()->second;
            write_column(meaning, entry.sketch.meanings.at(meaning), entry.sketch.reasons.at(meaning), flow_gives_mass);
        }
        for (const auto& [way, entry] : ways) {
            if (ways.size() < 2) continue;
            const ColumnChoice& choice = entry->sketch.meanings.at(meaning);
            const bool yield_is_spare = meaning == Meaning::yield && flow_gives_mass;
            if (needs_unit(meaning) && choice.unit.empty() && !yield_is_spare)
                ask(unit_question(meaning, choice, entry->sketch.file));
            else
                add(fmt::format("# {}: '{}'{} in {}: {}", meaning_word(meaning), one_line(way.first),
                                way.second.empty() ? "" : " in " + way.second, one_line(entry->sketch.file),
                                one_line(entry->sketch.reasons.at(meaning))));
        }
    }
    if (const auto question = machine_question(records)) ask(*question);
    std::set<std::string> told;
    for (const FolderEntry* entry : records)
        for (const std::string& trouble : split(entry->sketch.trouble, '\n'))
            if (!trouble.empty() && told.insert(trouble).second) ask(trouble, "");
    add("");
}

void Draft::write_times(const std::vector<const FolderEntry*>& records) {
    const FolderEntry *zoned = nullptr, *zoneless = nullptr;
    for (const FolderEntry* entry : records)
        if (entry->sketch.year) (entry->sketch.times_state_zone ? zoned : zoneless) = entry;
    std::vector<const FolderEntry*> dated = records;
    for (const FolderEntry* entry : survey_.of(Part::tickets))
        dated.push_back(entry);
    const DatesFound dates = dates_found(dated);
    if (dates.question) ask(*dates.question);
    if (!dates.line.empty()) add(dates.line);
    if (zoned != nullptr && zoneless != nullptr)
        ask_without_stop(fmt::format("the times of {} state their zone and those of {} do not; in which zone are they? "
                                     "Unanswered, they are taken as UTC; where tickets have times, loads cannot be "
                                     "matched and 'compare' stops until this is said.",
                                     zoned->sketch.file, zoneless->sketch.file),
                         "time_zone = \"-06:00\"");
    else if (zoneless != nullptr)
        add("# time_zone = \"-06:00\"   # the times state none and are taken as UTC; where the tickets' times state "
            "one, 'compare' stops until this is said");
}

void Draft::write_points() {
    add("# The records of the yield monitors. A record belongs to the field it lies in.");
    add("[points]");
    const auto records = survey_.of(Part::records);
    if (records.empty())
        return ask("no file of yield records was found; which are they?", "files = [\"yield/*.csv\"]\n");
    write_files(records);
    write_crs(records);
    write_times(records);
    write_columns(records);
}

void Draft::write_method_names(const std::vector<std::string>& values) {
    if (values.size() < 2)
        ask("which ways of cutting were there? At least two.",
            "[[method]]\n# name = \"swathed\"\n# [[method]]\n# name = \"standing\"");
    const auto records = survey_.of(Part::records);
    const bool width_logged = !records.empty() && std::all_of(records.begin(), records.end(), [](const FolderEntry* e) {
        return e->sketch.meanings.contains(Meaning::width);
    });
    for (const std::string& value : values) {
        add("[[method]]");
        add(fmt::format("name      = {}", toml_text(value)));
        const bool windrow =
            lower(value).find("swath") != std::string::npos || lower(value).find("windrow") != std::string::npos;
        const std::string why = windrow
                                    ? "the swather's cut: the land one windrow stands for, not the width of the pick-up"
                                    : "the width of the header";
        const std::string question = fmt::format("how wide was \"{}\" cut ({})?", value, why),
                          line = "cut_width = \"35 ft\"";
        if (width_logged)
            ask_without_stop(question + " Unanswered, the width the monitor logged is taken, which is easily wrong.",
                             line);
        else
            ask(question, line);
    }
    add("");
}

void Draft::write_methods() {
    add("# Which land was cut which way.");
    add("[methods]");
    const auto areas = survey_.of(Part::method_areas);
    const auto records = survey_.of(Part::records);
    const std::string of_fields = boundaries() == nullptr ? "" : method_column_of(*boundaries());
    const std::string of_records = records.empty() ? "" : method_column_of(*records.front());
    if (areas.size() > 1)
        ask(fmt::format("there are {} layers of method areas; the first was taken. Is it the right one?", areas.size()),
            "");
    if (!areas.empty()) {
        add("# " + one_line(areas.front()->reason));
        write_layer(*areas.front());
        add(fmt::format("column = {}", toml_text(areas.front()->name_column)));
    } else if (!of_fields.empty()) {
        add(fmt::format("from_fields = {{ column = {} }}   # a column of the boundaries holds ways of cutting",
                        toml_text(of_fields)));
    } else if (!of_records.empty()) {
        add(fmt::format("from_points = {{ column = {} }}   # a column of the records holds ways of cutting",
                        toml_text(of_records)));
    } else {
        ask("which land was cut which way? Polygons with a column (file, column), a column of the boundaries "
            "(from_fields) or of the records (from_points).",
            "file = \"methods.gpkg\"\n# column = \"method\"");
    }
    add("");
    write_method_names(method_values());
}

void Draft::write_strata() {
    for (const FolderEntry* entry : survey_.of(Part::strata)) {
        add("# Parts of fields to be looked at one by one; take the # away to use them. " + one_line(entry->reason));
        add("# [strata]");
        add(fmt::format("# file   = {}", toml_text(entry->sketch.file)));
        if (entry->layers > 1) add(fmt::format("# layer  = {}", toml_text(entry->sketch.layer)));
        add(fmt::format("# column = {}\n", toml_text(entry->name_column)));
    }
}

void Draft::write_tickets() {
    const auto tickets = survey_.of(Part::tickets);
    if (tickets.empty()) {
        add("# No table of weighed loads was found. Without them the answer is wide, and should be.\n");
        return;
    }
    add("# Weighed loads: they set the monitors right.");
    add("[tickets]");
    add(fmt::format("file = {}", toml_text(tickets.front()->sketch.file)));
    if (tickets.size() > 1)
        ask(fmt::format("there are {} tables of loads; the first was taken. Put all loads into one.", tickets.size()),
            "");
    const std::vector<std::string>& columns = tickets.front()->sketch.columns;
    const bool dockage_told = std::any_of(columns.begin(), columns.end(), [](const std::string& column) {
        return lower(column).find("dock") != std::string::npos || lower(column).find("clean") != std::string::npos;
    });
    if (!dockage_told)
        ask("is dockage still in the masses? If it was taken off, say so; else add a column dockage_pct to the table.",
            "dockage = \"off\"");
    add("");
}

void Draft::write_trial() {
    add("[trial]");
    ask_without_stop(
        "did a coin or the like say which strip was cut which way? A map cannot show it. Unanswered, it is taken that "
        "none did.",
        "randomised = true");
    const auto areas = survey_.of(Part::method_areas);
    if (areas.empty()) return;
    for (const std::string& column : areas.front()->sketch.columns)
        if (lower(column) == "block" || lower(column) == "pair" || lower(column) == "rep")
            return add(fmt::format("pairs = {}   # the column that numbers the pairs; \"auto\" finds them from the map",
                                   toml_text(column)));
}

void Draft::write_left_over() {
    const auto unknown = survey_.of(Part::unknown);
    if (!unknown.empty()) add("\n# Not used:");
    for (const FolderEntry* entry : unknown)
        add(one_line(fmt::format("#   {}{}: {}", entry->sketch.file,
                                 entry->layers > 1 ? ", layer " + entry->sketch.layer : "", entry->reason)));
    if (survey_.cut_short) add("# There are more files than were looked at.");
}

} // namespace

SeasonDraft draft_season(const FolderSurvey& survey, const std::string& title) { return Draft(survey, title).made(); }

SeasonDraft with_fault(SeasonDraft draft, const std::string& fault) {
    draft.questions.push_back(one_line(fault));
    draft.stops = true;
    draft.text = "# QUESTION: `check` stops here: " + one_line(fault) + "\n" + draft.text;
    return draft;
}

} // namespace quartercut::cli
