// SPDX-License-Identifier: MIT
// [money]: prices and costs with their units, each with a date and a source. One currency, nothing converted.
#include "season/plans.hpp"

#include "base/text.hpp"

#include <algorithm>
#include <array>
#include <chrono>
#include <fmt/format.h>

namespace quartercut {
namespace {

struct KindWord {
    CostKind kind;
    const char* word;
};

constexpr std::array<KindWord, 9> kind_words{{{CostKind::swathing, "swathing"},
                                              {CostKind::harvest_aid, "harvest-aid"},
                                              {CostKind::application, "application"},
                                              {CostKind::combining, "combining"},
                                              {CostKind::drying, "drying"},
                                              {CostKind::trampling, "trampling"},
                                              {CostKind::grade, "grade"},
                                              {CostKind::ownership, "ownership"},
                                              {CostKind::other, "other"}}};

} // namespace

const char* cost_kind_word(CostKind kind) {
    for (const KindWord& entry : kind_words)
        if (entry.kind == kind) return entry.word;
    return "other";
}

namespace season {
namespace {

struct CurrencyWord {
    std::string_view word, code;
};

// Signs and codes people write. A bare $ is the file's own dollar.
constexpr std::array<CurrencyWord, 11> currency_words{{{"cad", "CAD"},
                                                       {"ca$", "CAD"},
                                                       {"c$", "CAD"},
                                                       {"usd", "USD"},
                                                       {"us$", "USD"},
                                                       {"eur", "EUR"},
                                                       {"\xE2\x82\xAC", "EUR"},
                                                       {"gbp", "GBP"},
                                                       {"\xC2\xA3", "GBP"},
                                                       {"aud", "AUD"},
                                                       {"a$", "AUD"}}};

bool is_dollar(std::string_view code) { return code.empty() || code == "CAD" || code == "USD" || code == "AUD"; }

std::string checked_day(const TableReader& table, const std::string& key, const std::string& otherwise) {
    const std::string day = table.text_or(key, otherwise);
    if (day.empty())
        table.fail(table.place(),
                   fmt::format("\"money.{}\" is missing: prices move, so say the day they hold for, such "
                               "as {} = \"2025-11-01\"",
                               key, key));
    const auto part = [&day](std::size_t at, std::size_t digits) {
        return static_cast<int>(parse_whole_number(day.substr(at, digits)).value_or(0));
    };
    const bool shaped = day.size() == 10 && day[4] == '-' && day[7] == '-' && parse_whole_number(day.substr(0, 4)) &&
                        parse_whole_number(day.substr(5, 2)) && parse_whole_number(day.substr(8, 2));
    if (!shaped)
        table.fail_at(key, fmt::format("is \"{}\"; write the day as year-month-day, such as \"2025-11-01\"", day));
    const std::chrono::year_month_day date{std::chrono::year{part(0, 4)},
                                           std::chrono::month{static_cast<unsigned>(part(5, 2))},
                                           std::chrono::day{static_cast<unsigned>(part(8, 2))}};
    if (!date.ok()) table.fail_at(key, fmt::format("is \"{}\", which is no day of the calendar", day));
    return day;
}

CostKind read_kind(const TableReader& table) {
    const std::string word = table.required_text("kind", "it says what the money is for, such as \"swathing\"");
    std::vector<std::string> known;
    for (const KindWord& entry : kind_words) {
        if (word == entry.word) return entry.kind;
        known.emplace_back(entry.word);
    }
    const auto nearest = nearest_word(word, known);
    table.fail_at("kind", fmt::format("is \"{}\"; {}", word,
                                      nearest ? fmt::format("did you mean \"{}\"?", *nearest)
                                              : "write " + join_with(known, "or")));
}

/// "14 ac/h": land worked in a time, m2/s.
double read_work_rate(const TableReader& table) {
    const std::string text =
        table.required_text("rate", "an amount per hour needs the land worked in an hour, such as rate = \"14 ac/h\"");
    const std::size_t unit_at = text.find_first_not_of("+-0123456789. ");
    const std::size_t slash = text.find('/');
    if (unit_at != std::string::npos && slash != std::string::npos && slash > unit_at) {
        const auto number = parse_number(text.substr(0, unit_at));
        const auto area = unit_factor(Dimension::area, trim(text.substr(unit_at, slash - unit_at)));
        const auto time = unit_factor(Dimension::duration, trim(text.substr(slash + 1)));
        if (number && area && time && *number > 0.0) return *number * *area / *time;
    }
    table.fail_at("rate", fmt::format("is \"{}\"; write land per time, such as \"14 ac/h\"", text));
}

void read_trampling(const TableReader& table, CostItem& item) {
    const QuantityRule width{Dimension::length, 0.01, 100.0, "2 ft", "1 cm to 100 m"};
    const auto crushed = table.quantity("crushed_width", width), boom = table.quantity("boom_width", width);
    if (!crushed || !boom)
        table.fail(table.place(), "trampling needs crushed_width (\"2 ft\") and boom_width (\"130 ft\")");
    if (*crushed >= *boom) table.fail_at("crushed_width", "is not narrower than the boom");
    if (!table.has("in_yield"))
        table.fail(table.place(), "trampling needs in_yield = true or false: did the rig drive through the strips "
                                  "whose yield was measured? Then the yield has lost it already");
    item.crushed_share = *crushed / *boom;
    item.in_yield = table.boolean("in_yield", false);
    item.per = MoneyPer::share_of_price;
    item.written = fmt::format("{} of {}", table.text_or("crushed_width", ""), table.text_or("boom_width", ""));
}

/// Money tied up in a machine: capital x interest a year, shared by the land it cuts.
MoneyAmount read_interest(const TableReader& table, MoneyReader& money) {
    const auto capital = money.amount(table, "capital");
    const auto interest = table.quantity("interest", {Dimension::ratio, 0.0, 100.0, "8 %", "0 % to 100 %"});
    if (!capital || !interest)
        table.fail(table.place(), "a cost needs an amount, or capital and interest (\"8 %\" a year) together");
    if (capital->per != MoneyPer::once) table.fail_at("capital", "is a sum of money, such as \"60000 $\"");
    return {MoneyPer::once, capital->amount * *interest / 100.0,
            fmt::format("{} at {} a year", capital->written, table.text_or("interest", ""))};
}

void read_per(const TableReader& table, CostItem& item) {
    if (item.per == MoneyPer::hour) item.work_m2_s = read_work_rate(table);
    if (item.per == MoneyPer::once) {
        const auto over = table.quantity("over", {Dimension::area, 1.0, 1e12, "2000 ac", "more than nothing"});
        if (!over)
            table.fail(table.place(),
                       "a sum needs the land that shares it, such as over = \"2000 ac\" (a year's acres)");
        item.over_m2 = *over;
    }
    item.per_point = table.boolean("per_point", false);
    if (item.per_point && (item.kind != CostKind::drying || item.per != MoneyPer::mass))
        table.fail_at("per_point", "is for drying charged by mass, such as \"0.05 $/bu\" for each point");
    if (item.kind == CostKind::drying && item.per != MoneyPer::mass)
        table.fail_at("amount", "is not by mass; drying is charged by mass, such as \"0.05 $/bu\"");
    if (item.per == MoneyPer::share_of_price && item.kind != CostKind::grade)
        table.fail_at("amount", "is a share; only a grade discount may be a share of the price");
}

CostItem read_cost(const TableReader& table, MoneyReader& money, const std::vector<Method>& methods,
                   const MoneyInput& all) {
    CostItem item;
    item.kind = read_kind(table);
    item.item = table.text_or("item", cost_kind_word(item.kind));
    if (table.has("method")) item.method = method_word(table, "method", *table.text("method"), methods);
    item.as_of = checked_day(table, "as_of", all.as_of);
    item.source = table.text_or("source", all.source);
    if (item.kind == CostKind::trampling) {
        read_trampling(table, item);
        return item;
    }
    const MoneyAmount amount = table.has("amount") ? *money.amount(table, "amount") : read_interest(table, money);
    item.per = amount.per;
    item.amount = amount.amount;
    item.written = amount.written;
    if (item.amount < 0.0 && item.kind != CostKind::grade)
        table.fail_at("amount", "is negative; only a grade discount may be (a premium)");
    read_per(table, item);
    if (const auto u = money.amount(table, "uncertainty")) {
        if (u->per != item.per || u->amount < 0.0)
            table.fail_at("uncertainty", "must be positive and in the amount's unit: one standard deviation");
        item.u = u->amount;
    }
    return item;
}

void read_price(const TableReader& table, MoneyReader& money, MoneyInput& input) {
    const auto price = money.amount(table, "price");
    if (!price) return;
    if (price->per != MoneyPer::mass) table.fail_at("price", "is not by mass; write \"14.20 $/bu\" or \"640 $/t\"");
    if (!(price->amount > 0.0)) table.fail_at("price", fmt::format("is \"{}\"; a price is above 0", price->written));
    input.price_cents_kg = price->amount;
    input.price_written = price->written;
    const auto u = money.amount(table, "price_uncertainty");
    if (!u) return;
    if (u->per != MoneyPer::mass || u->amount < 0.0)
        table.fail_at("price_uncertainty", "must be positive and by mass: one standard deviation of the price");
    input.price_u_cents_kg = u->amount;
}

} // namespace

double MoneyReader::cents_of(const TableReader& table, const std::string& key, const std::string& word) {
    const std::string small = lower(word);
    if (small == "\xC2\xA2" || small == "cent" || small == "cents" || small == "c") return 1.0;
    if (small == "$" || small == "dollar" || small == "dollars") {
        if (!is_dollar(currency_))
            table.fail_at(key, fmt::format("is in dollars, but the money of this file is {}: currencies are not mixed",
                                           currency_));
        return 100.0;
    }
    for (const CurrencyWord& known : currency_words) {
        if (small != known.word) continue;
        if (currency_.empty()) currency_ = known.code;
        if (currency_ != known.code)
            table.fail_at(key, fmt::format("is in {}, but the money of this file is {}: currencies are not mixed or "
                                           "converted; write every amount in {}",
                                           known.code, currency_, currency_));
        return 100.0;
    }
    table.fail_at(key, fmt::format("has no money in it (\"{}\"); write it like \"13.00 $/ac\"", word));
}

std::optional<MoneyAmount> MoneyReader::amount(const TableReader& table, const std::string& key) {
    if (!table.has(key)) return std::nullopt;
    const std::string text = table.required_text(key, "");
    const std::size_t unit_at = text.find_first_not_of("+-0123456789.");
    const auto number = parse_number(text.substr(0, unit_at));
    if (!number || unit_at == std::string::npos)
        table.fail_at(key, fmt::format("is \"{}\"; write a number and its unit, such as \"13.00 $/ac\"", text));
    const std::string unit(trim(text.substr(unit_at)));
    if (unit == "%") return MoneyAmount{MoneyPer::share_of_price, *number / 100.0, text};
    const std::size_t slash = unit.find('/');
    const double cents = *number * cents_of(table, key, std::string(trim(unit.substr(0, slash))));
    if (slash == std::string::npos) return MoneyAmount{MoneyPer::once, cents, text};
    const std::string_view per = trim(std::string_view(unit).substr(slash + 1));
    if (const auto area = unit_factor(Dimension::area, per)) return MoneyAmount{MoneyPer::area, cents / *area, text};
    if (const auto time = unit_factor(Dimension::duration, per))
        return MoneyAmount{MoneyPer::hour, cents / *time, text};
    if (const auto mass = unit_factor(Dimension::mass, per, bushel_lb_))
        return MoneyAmount{MoneyPer::mass, cents / *mass, text};
    table.fail_at(key, fmt::format("is \"{}\"; money is per ac, ha, h, t, bu, lb or kg", text));
}

std::string method_word(const TableReader& table, const std::string& key, const std::string& name,
                        const std::vector<Method>& methods) {
    std::vector<std::string> names;
    for (const Method& method : methods) {
        if (method.name == name) return name;
        names.push_back(method.name);
    }
    const auto nearest = nearest_word(name, names);
    table.fail_at(key,
                  fmt::format("is \"{}\", which has no [[method]] table; {}", name,
                              nearest ? fmt::format("did you mean \"{}\"?", *nearest) : "known: " + join(names, ", ")));
}

std::optional<MoneyInput> read_money(const TableReader& root, const std::vector<Method>& methods, double bushel_lb) {
    const auto table = root.table("money", "money");
    if (!table) return std::nullopt;
    MoneyInput input;
    input.as_of = checked_day(*table, "as_of", "");
    input.source = table->required_text("source", "it says where the prices come from, such as \"elevator bid\"");
    std::string currency = table->text_or("currency", "");
    std::transform(currency.begin(), currency.end(), currency.begin(),
                   [](char c) { return c >= 'a' && c <= 'z' ? static_cast<char>(c - 'a' + 'A') : c; });
    MoneyReader money(currency == "$" ? "" : currency, bushel_lb);
    read_price(*table, money, input);
    for (const TableReader& cost : table->tables("cost", "money.cost"))
        input.costs.push_back(read_cost(cost, money, methods, input));
    if (!money.currency().empty()) input.currency = money.currency();
    return input;
}

} // namespace season
} // namespace quartercut
