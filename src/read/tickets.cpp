// SPDX-License-Identifier: MIT
// Tickets: columns recognised by their words, masses brought to kilograms, each row checked.
//
// Dockage: the net mass is taken with dockage still in it, and the column dockage_pct says how much to take off. A file
// without that column must say that it is off already: in the mass column's name (net_clean_kg) or in the season file.
#include "read/tickets.hpp"

#include "base/text.hpp"
#include "quartercut/units.hpp"
#include "read/cells.hpp"
#include "read/header_name.hpp"
#include "read/input_files.hpp"
#include "read/times.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <fmt/format.h>
#include <map>

namespace quartercut::reading {
namespace {

enum class Part { id, field, machine, method, load, start, end, net, gross, tare, moisture, dockage };
constexpr std::size_t part_count = 12;

struct PartWords {
    Part part;
    const char* called;     ///< in messages
    std::string_view words; ///< one of these must stand in the name
    std::string_view not_words;
};

// Common practice, no source.
constexpr std::array<PartWords, part_count> parts{{
    {Part::id, "id", " id ticket no number receipt ", " load field machine combine truck "},
    {Part::field, "field", " field land quarter ", " "},
    {Part::machine, "machine", " machine combine harvester ", " "},
    {Part::method, "method", " method treatment cut ", " width "},
    {Part::load, "load", " load loadid ", " start end begin net gross time "},
    {Part::start, "start", " start begin from started ", " "},
    {Part::end, "end", " end stop until to finish finished ended ", " "},
    {Part::net, "net", " net netweight nett ", " price "},
    {Part::gross, "gross", " gross ", " price "},
    {Part::tare, "tare", " tare ", " "},
    {Part::moisture, "moisture", " moisture moist mst ", " "},
    {Part::dockage, "dockage", " dockage dock ", " net gross after less off "},
}};

struct MassColumn {
    std::size_t column = 0;
    double kg_per_unit = 1.0;
    std::string name;
};

/// What the table has.
struct TicketColumns {
    std::array<std::optional<std::size_t>, part_count> of;
    std::optional<MassColumn> net, gross, tare;
    double moisture_factor = 1.0, dockage_factor = 1.0;
    DateOrder order = DateOrder::year_first;
    std::optional<std::size_t> day; ///< where start and end are times of that day
    [[nodiscard]] std::optional<std::size_t> at(Part part) const { return of[static_cast<std::size_t>(part)]; }
};

bool any_word(const HeaderName& name, std::string_view list) {
    return std::any_of(name.words.begin(), name.words.end(), [list](const std::string& word) {
        return list.find(" " + word + " ") != std::string_view::npos;
    });
}

std::optional<std::size_t> find_part(const TextTable& table, const PartWords& part) {
    std::vector<std::string> found;
    std::size_t column = 0;
    for (std::size_t i = 0; i < table.names().size(); ++i) {
        const HeaderName name = taken_apart(table.names()[i]);
        if (!any_word(name, part.words) || any_word(name, part.not_words)) continue;
        if (found.empty()) column = i;
        found.push_back(table.names()[i]);
    }
    if (found.size() > 1)
        throw InputError(fmt::format("{}: several columns could be the {}: {}. Rename all but one.", table.shown(),
                                     part.called, listed(found)));
    return found.empty() ? std::nullopt : std::optional(column);
}

MassColumn mass_column(const Context& context, const TextTable& table, std::size_t column) {
    const std::string& name = table.names()[column];
    HeaderName apart = taken_apart(name);
    if (apart.bracket.empty() && apart.words.size() >= 3 && apart.words[apart.words.size() - 2] == "short")
        apart.words.pop_back();
    std::string unit;
    if (const auto in_name = unit_in_name(apart, Dimension::mass, context.season.bushel_lb)) unit = in_name->unit;
    if (!apart.words.empty() && apart.words.back() == "short") unit = "short ton";
    if (unit.empty() && column < table.units().size()) unit = table.units()[column];
    const auto factor = unit.empty() ? std::nullopt : unit_factor(Dimension::mass, unit, context.season.bushel_lb);
    if (!factor)
        throw InputError(
            fmt::format("{}: the unit of column '{}' is not said. Name it with its unit, e.g. net_kg, net_lb, "
                        "net_t, net_short_ton or net_bu.",
                        table.shown(), name));
    if (lower(unit) == "ton" || lower(unit) == "tons")
        throw InputError(fmt::format(
            "{}: column '{}': a ton may be 1000 kg or 2000 lb. Name it net_t or net_short_ton.", table.shown(), name));
    return {column, *factor, name};
}

double share_factor(const Context& context, const TextTable& table, std::optional<std::size_t> column) {
    if (!column) return 1.0;
    const auto unit = unit_in_name(taken_apart(table.names()[*column]), Dimension::moisture, context.season.bushel_lb);
    return unit ? unit_factor(Dimension::moisture, unit->unit).value_or(1.0) : 1.0;
}

/// Whether dockage is still in the net mass makes one or two percent: it must be said.
void check_dockage_said(const Context& context, const TextTable& table, const MassColumn& mass) {
    const bool by_name = any_word(taken_apart(mass.name), " clean dockage ");
    if (by_name || (context.season.tickets && context.season.tickets->dockage_off)) return;
    throw InputError(fmt::format("{}: is dockage still in the mass of column '{}'? No column tells it. Add a column "
                                 "dockage_pct (0 where there is none), or dockage = \"off\" under [tickets] if it was "
                                 "taken off already.",
                                 table.shown(), mass.name));
}

/// Times of the day without the day.
bool holds_clocks(const std::vector<std::string>& sample) {
    return !sample.empty() && std::all_of(sample.begin(), sample.end(), [](const std::string& cell) {
        return cell.find(':') != std::string::npos && parse_clock(cell).has_value();
    });
}

/// The column with the day of loads whose start and end are times of the day.
std::size_t day_column(const TextTable& table, std::size_t start) {
    const auto found = find_part(table, {Part::start, "day", " date day ", " invoice paid settled due "});
    if (found) return *found;
    throw InputError(fmt::format("{}: column '{}' holds times of the day ('{}'), and no column tells the day. Add a "
                                 "column date with days like 2025-09-01, or write start and end like "
                                 "2025-09-01T14:30:00-06:00.",
                                 table.shown(), table.names()[start], table.sample(start).front()));
}

DateOrder order_of_dates(const Context& context, const TextTable& table, std::size_t column) {
    const DateOrder order = date_order(table.sample(column), context.season.points.dates);
    if (order != DateOrder::unclear) return order;
    throw InputError(fmt::format("{}: the dates in column '{}' could be day/month or month/day. Say which under "
                                 "[points]: dates = \"day/month\" or dates = \"month/day\".",
                                 table.shown(), table.names()[column]));
}

TicketColumns find_columns(Context& context, const TextTable& table) {
    TicketColumns out;
    for (const PartWords& part : parts)
        out.of[static_cast<std::size_t>(part.part)] = find_part(table, part);
    const auto mass = [&](Part part) -> std::optional<MassColumn> {
        const auto column = out.at(part);
        return column ? std::optional(mass_column(context, table, *column)) : std::nullopt;
    };
    out.net = mass(Part::net);
    if (!out.net) {
        out.gross = mass(Part::gross);
        out.tare = mass(Part::tare);
    }
    if (!out.net && !(out.gross && out.tare))
        throw InputError(
            fmt::format("{}: no column was recognised as the net mass (or gross and tare). Columns: {}. Name it "
                        "with its unit, e.g. net_kg.",
                        table.shown(), listed(table.names())));
    if (!out.at(Part::moisture))
        throw InputError(fmt::format("{}: no column was recognised as the moisture of the loads. Columns: {}. Name it "
                                     "moisture_pct.",
                                     table.shown(), listed(table.names())));
    if (out.at(Part::dockage) && context.season.tickets && context.season.tickets->dockage_off)
        throw InputError(
            fmt::format("{}: the season file says dockage = \"off\", but the column '{}' says how much to take "
                        "off. Take one of the two out.",
                        table.shown(), table.names()[*out.at(Part::dockage)]));
    out.moisture_factor = share_factor(context, table, out.at(Part::moisture));
    out.dockage_factor = share_factor(context, table, out.at(Part::dockage));
    if (const auto start = out.at(Part::start)) {
        if (holds_clocks(table.sample(*start))) out.day = day_column(table, *start);
        out.order = order_of_dates(context, table, out.day.value_or(*start));
    }
    return out;
}

/// One row of the table, with the words for messages about it.
class TicketRow {
public:
    TicketRow(const TextTable& table, const std::vector<std::string_view>& cells, std::size_t row)
        : table_(table), cells_(cells), row_(row) {}
    [[nodiscard]] std::string text(std::optional<std::size_t> column) const {
        if (!column || *column >= cells_.size()) return {};
        std::string out(trim(unquoted(cells_[*column])));
        return is_missing(out) ? std::string() : out;
    }
    [[noreturn]] void refuse(std::size_t column, const std::string& words) const {
        throw DataError(
            fmt::format("{}, row {}, column '{}': {}", table_.shown(), row_, table_.names()[column], words));
    }
    [[nodiscard]] double number(std::size_t column) const {
        const std::string cell = text(column);
        if (cell.empty()) refuse(column, "a number is wanted here, and the cell is empty.");
        const auto value = cell_number(cell, table_.decimal_comma());
        if (!value) refuse(column, fmt::format("'{}' is no number.", cell));
        return *value;
    }
    [[nodiscard]] std::size_t row() const { return row_; }

private:
    const TextTable& table_;
    const std::vector<std::string_view>& cells_;
    std::size_t row_;
};

double net_mass_kg(const TicketRow& row, const TicketColumns& columns) {
    const MassColumn& first = columns.net ? *columns.net : *columns.gross;
    double mass_kg = row.number(first.column) * first.kg_per_unit;
    if (!columns.net) mass_kg -= row.number(columns.tare->column) * columns.tare->kg_per_unit;
    if (!(mass_kg > 0.0)) row.refuse(first.column, "the net mass must be above 0.");
    constexpr double heaviest_kg = 200000.0; // more than any road train carries (judgement)
    if (mass_kg > heaviest_kg)
        row.refuse(first.column,
                   fmt::format("a load of {} kg cannot be; is the unit right?", format_fixed(mass_kg, 0)));
    return mass_kg;
}

/// A time of the day on the row's day; nullopt where the cell is no such time.
std::optional<Moment> moment_on_day(const TicketRow& row, std::size_t day_column, const std::string& cell,
                                    DateOrder order) {
    const auto clock = parse_clock(cell);
    const auto day = parse_day(row.text(day_column), order);
    if (!day) row.refuse(day_column, fmt::format("'{}' is no day. Write it like 2025-09-01.", row.text(day_column)));
    return clock ? std::optional(Moment{*day + *clock, false}) : std::nullopt;
}

std::optional<double> time_of(Context& context, const TicketRow& row, std::optional<std::size_t> column,
                              const TicketColumns& columns) {
    const std::string cell = row.text(column);
    if (cell.empty()) return std::nullopt;
    if (const auto number = cell_number(cell); number && *number > 1e8 && *number < 1e10) return number;
    auto moment = parse_moment(cell, columns.order);
    if (columns.day) moment = moment_on_day(row, *columns.day, cell, columns.order);
    if (!moment) row.refuse(*column, fmt::format("'{}' is no time. Write it like 2025-09-01T14:30:00-06:00.", cell));
    (moment->zoned ? context.zoned_from : context.zoneless_from) =
        context.season.tickets ? context.season.tickets->file : "tickets";
    if (moment->zoned) return moment->seconds;
    return moment->seconds - zone_offset_s(context.season.points.time_zone).value_or(0.0);
}

/// A load begun in the evening and ended in the small hours: its day is that of its start.
void past_midnight(Ticket& ticket) {
    constexpr double day_s = 86400.0, longest_s = 12.0 * 3600.0; // a longer one is a slip of the pen (judgement)
    if (!ticket.start_s || !ticket.end_s || *ticket.end_s > *ticket.start_s) return;
    if (*ticket.end_s + day_s - *ticket.start_s <= longest_s) *ticket.end_s += day_s;
}

Ticket ticket_of(Context& context, const TicketRow& row, const TicketColumns& columns) {
    Ticket ticket;
    ticket.row = row.row();
    ticket.id = row.text(columns.at(Part::id));
    ticket.field = row.text(columns.at(Part::field));
    ticket.machine = row.text(columns.at(Part::machine));
    ticket.method = row.text(columns.at(Part::method));
    ticket.load = row.text(columns.at(Part::load));
    ticket.net_kg = net_mass_kg(row, columns);
    ticket.unit_kg = (columns.net ? *columns.net : *columns.gross).kg_per_unit;
    const std::size_t moisture = *columns.at(Part::moisture);
    ticket.moisture_pct = row.number(moisture) * columns.moisture_factor;
    if (ticket.moisture_pct > 0.0 && ticket.moisture_pct < 1.0)
        row.refuse(moisture, fmt::format("no grain holds {} % moisture. Name the column moisture_fraction if it is in "
                                         "parts of one.",
                                         format_shortest(ticket.moisture_pct)));
    if (!(ticket.moisture_pct > 0.0 && ticket.moisture_pct < 100.0))
        row.refuse(moisture, fmt::format("a moisture of {} % cannot be.", format_shortest(ticket.moisture_pct)));
    const auto dockage = columns.at(Part::dockage);
    if (!row.text(dockage).empty()) ticket.dockage_pct = row.number(*dockage) * columns.dockage_factor;
    if (dockage && !(ticket.dockage_pct >= 0.0 && ticket.dockage_pct < 100.0))
        row.refuse(*dockage, fmt::format("a dockage of {} % cannot be.", format_shortest(ticket.dockage_pct)));
    ticket.start_s = time_of(context, row, columns.at(Part::start), columns);
    ticket.end_s = time_of(context, row, columns.at(Part::end), columns);
    if (columns.day) past_midnight(ticket);
    if (ticket.start_s && ticket.end_s && *ticket.end_s <= *ticket.start_s)
        row.refuse(*columns.at(Part::end), "the load ends before it starts.");
    return ticket;
}

} // namespace

std::vector<Ticket> tickets_of(Context& context, const TextTable& table) {
    for (const Issue& issue : table.issues())
        context.raw.issues.push_back(issue);
    const TicketColumns columns = find_columns(context, table);
    std::vector<Ticket> tickets;
    std::map<std::string, std::size_t> row_of_id;
    RowWalker walker = table.rows();
    std::vector<std::string_view> cells;
    std::size_t row = 0;
    while (walker.next(cells)) {
        ++row;
        check_quotes(walker, table.shown(), row);
        context.attempt(table.shown(), [&] {
            if (cells.size() > table.names().size() && !is_missing(cells.back()))
                throw DataError(fmt::format("{}, row {}: the row holds {} cells, but there are {} column names.",
                                            table.shown(), row, cells.size(), table.names().size()));
            Ticket ticket = ticket_of(context, TicketRow(table, cells, row), columns);
            const auto [known, is_new] = row_of_id.emplace(ticket.id, row);
            if (!is_new && !ticket.id.empty())
                throw DataError(fmt::format("{}, rows {} and {}: ticket '{}' stands there twice. Delete one.",
                                            table.shown(), known->second, row, ticket.id));
            tickets.push_back(std::move(ticket));
        });
    }
    if (row == 0) throw InputError(fmt::format("{}: there is no ticket below the column names.", table.shown()));
    check_twice(context, table.shown(), tickets);
    if (!columns.at(Part::dockage)) check_dockage_said(context, table, columns.net ? *columns.net : *columns.gross);
    return tickets;
}

void read_tickets(Context& context) {
    if (!context.season.tickets) return;
    const TicketsInput& input = *context.season.tickets;
    for (const FoundFile& file :
         find_files(context.season, input.file, written_at(context.season, input.place) + "file under [tickets]")) {
        const std::size_t index = add_input(context, file, "tickets");
        std::vector<Ticket> tickets = tickets_of(context, TextTable(file));
        context.raw.inputs[index].rows = tickets.size();
        context.raw.tickets.insert(context.raw.tickets.end(), tickets.begin(), tickets.end());
    }
}

} // namespace quartercut::reading
