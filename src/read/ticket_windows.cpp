// SPDX-License-Identifier: MIT
// Tickets against each other and against the season: names that are not there, loads that would count the same grain
// twice.
//
// Several tickets of one window, machine, field and method are truckloads of the same grain and are added up; windows
// that overlap in part, or that differ in field or method, would give the grain in both to both.
#include "read/tickets.hpp"

#include "base/words/words.hpp"

#include "base/text.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>
#include <fmt/ranges.h>
#include <map>
#include <set>
#include <tuple>
#include <utility>

namespace quartercut::reading {
namespace {

auto what_it_selects(const Ticket& t) { return std::tie(t.field, t.machine, t.method, t.load, t.start_s, t.end_s); }

bool are_alike(const Ticket& a, const Ticket& b) {
    return a.id == b.id && what_it_selects(a) == what_it_selects(b) && a.net_kg == b.net_kg &&
           a.moisture_pct == b.moisture_pct && a.dockage_pct == b.dockage_pct;
}

bool may_be_same(const std::string& a, const std::string& b) { return a.empty() || b.empty() || a == b; }

/// Would some record belong to both?
bool run_into_each_other(const Ticket& a, const Ticket& b) {
    if (!a.start_s || !a.end_s || !b.start_s || !b.end_s || !a.load.empty() || !b.load.empty()) return false;
    if (!(*a.start_s < *b.end_s && *b.start_s < *a.end_s) || !may_be_same(a.machine, b.machine)) return false;
    const bool one_machine = !a.machine.empty() && a.machine == b.machine;
    return (one_machine || may_be_same(a.field, b.field)) && what_it_selects(a) != what_it_selects(b);
}

void check_pair(const std::string& shown, const Ticket& a, const Ticket& b) {
    if (are_alike(a, b))
        throw DataError(
            fmt::format("{}, rows {} and {}: the two tickets are alike in every cell. Delete one, or number "
                        "them in a column ticket if there were two such loads.",
                        shown, a.row, b.row));
    if (run_into_each_other(a, b))
        throw DataError(
            fmt::format("{}, rows {} and {}: the time windows of the two loads{} overlap, so the grain of that "
                        "time would count for both. Correct their start and end.",
                        shown, a.row, b.row, a.machine.empty() ? "" : fmt::format(" of machine '{}'", a.machine)));
}

/// "row 4: the ticket names", "rows 4, 5 and 3 more: the tickets name"
std::string who_names(const std::vector<std::size_t>& rows) {
    if (rows.size() == 1) return fmt::format("row {}: the ticket names", rows.front());
    constexpr std::size_t most = 6;
    const std::size_t shown = std::min(rows.size(), most);
    std::string out = fmt::format("rows {}", fmt::join(rows.begin(), rows.begin() + static_cast<long>(shown), ", "));
    if (rows.size() > most) out += fmt::format(" and {} more", rows.size() - most);
    return out + ": the tickets name";
}

/// One name that is not there is one fault, however many tickets have it.
void check_names(Context& context, const char* what, std::string Ticket::*name, const std::set<std::string>& known) {
    const std::string& file = context.season.tickets->file;
    const std::vector<std::string> names(known.begin(), known.end());
    std::map<std::string, std::vector<std::size_t>> unknown;
    for (const Ticket& ticket : context.raw.tickets)
        if (!(ticket.*name).empty() && !known.contains(ticket.*name)) unknown[ticket.*name].push_back(ticket.row);
    std::vector<std::pair<std::string, std::vector<std::size_t>>> in_order(unknown.begin(), unknown.end());
    std::sort(in_order.begin(), in_order.end(),
              [](const auto& a, const auto& b) { return a.second.front() < b.second.front(); });
    for (const auto& [wrong, rows] : in_order)
        context.attempt(file, [&, &word = wrong, &at = rows] {
            throw DataError(fmt::format("{}, {} the {} '{}', which the season does not have. There are: {}.{}", file,
                                        who_names(at), what, word, listed(names), did_you_mean(word, names)));
        });
}

/// Where boundaries were refused, a field of theirs is missing for that reason alone.
bool boundaries_at_fault(const Context& context) {
    return std::any_of(context.raw.issues.begin(), context.raw.issues.end(), [&](const Issue& issue) {
        return issue.severity == Severity::error && issue.where.starts_with(context.season.fields.file);
    });
}

std::set<std::string> machines_of(const Raw& raw) {
    std::set<std::string> names;
    bool unnamed = false;
    for (const RawRecords& records : raw.records) {
        const auto column = records.texts.find(Meaning::machine);
        if (column == records.texts.end()) {
            unnamed = true;
            continue;
        }
        names.insert(column->second.words.begin(), column->second.words.end());
    }
    if (!names.empty() && unnamed) names.insert("machine"); // what records that name none are called from here on
    return names;
}

bool has_word(const RawRecords& records, Meaning meaning, const std::string& word) {
    const auto column = records.texts.find(meaning);
    if (column == records.texts.end()) return false;
    const std::vector<std::string>& words = column->second.words;
    return std::find(words.begin(), words.end(), word) != words.end();
}

/// Does some load look for its grain by time, and possibly in this file? A load number that records carry goes first.
bool asked_for_times(const Raw& raw, const RawRecords& records) {
    const auto looks_here = [&](const Ticket& ticket) {
        if (!ticket.start_s && !ticket.end_s) return false;
        const auto carries = [&](const RawRecords& any) { return has_word(any, Meaning::load, ticket.load); };
        if (!ticket.load.empty() && std::any_of(raw.records.begin(), raw.records.end(), carries)) return false;
        return ticket.machine.empty() || records.texts.count(Meaning::machine) == 0 ||
               has_word(records, Meaning::machine, ticket.machine);
    };
    return std::any_of(raw.tickets.begin(), raw.tickets.end(), looks_here);
}

/// The message names the file a person has to look at first, then what to write.
void check_times_of(Context& context, const RawRecords& records, const std::string& shown) {
    const std::string& tickets = context.season.tickets->file;
    const auto timed = std::count_if(records.time_s.begin(), records.time_s.end(),
                                     [](double seconds) { return std::isfinite(seconds); });
    if (timed == 0)
        throw InputError(fmt::format(
            "{}: no column was recognised as the time of its records, and the loads of {} find their records by start "
            "and end, so this file's grain would be missing from them. Name the column under [points.columns]: time = "
            "{{ column = \"...\" }}. Where the records have no times, take the columns start and end out of the "
            "tickets, and loads are matched by field, machine and method.",
            shown, tickets));
    const std::size_t without = records.size() - static_cast<std::size_t>(timed);
    if (without > 0)
        context.warn("records-without-time", shown,
                     fill(spoken().read.records_without_time, fmt::arg("without", without),
                          fmt::arg("records", records.size()), fmt::arg("tickets", tickets)));
}

} // namespace

void check_records_have_times(Context& context) {
    if (!context.season.tickets) return;
    for (const RawRecords& records : context.raw.records) {
        const std::string& shown = context.raw.inputs[records.input].path;
        if (asked_for_times(context.raw, records))
            context.attempt(shown, [&] { check_times_of(context, records, shown); });
    }
}

void check_ticket_names(Context& context) {
    if (!context.season.tickets) return;
    std::set<std::string> fields, methods;
    for (const RawArea& field : context.raw.fields)
        fields.insert(field.name);
    for (const Method& method : context.season.methods)
        methods.insert(method.name);
    const std::set<std::string> machines = machines_of(context.raw);
    // What could not be read cannot be missed.
    if (!fields.empty() && !boundaries_at_fault(context)) check_names(context, "field", &Ticket::field, fields);
    if (!machines.empty()) check_names(context, "machine", &Ticket::machine, machines);
    check_names(context, "method", &Ticket::method, methods);
}

void check_twice(Context& context, const std::string& shown, const std::vector<Ticket>& tickets) {
    for (std::size_t a = 0; a < tickets.size(); ++a)
        for (std::size_t b = a + 1; b < tickets.size(); ++b)
            if (!context.attempt(shown, [&] { check_pair(shown, tickets[a], tickets[b]); })) break;
}

} // namespace quartercut::reading
