// SPDX-License-Identifier: MIT
// Reads the tables about money, losses, weather and next year.
#pragma once

#include "season/table_reader.hpp"

namespace quartercut::season {

[[nodiscard]] std::optional<MoneyInput> read_money(const TableReader& root, const std::vector<Method>& methods,
                                                   double bushel_lb);
[[nodiscard]] std::optional<LossCountsInput> read_loss_counts(const TableReader& root);
[[nodiscard]] std::optional<WeatherInput> read_weather(const TableReader& root, const std::vector<Method>& methods);
[[nodiscard]] std::optional<NextYearInput> read_next_year(const TableReader& root, const Season& season);

/// An amount of money with its unit: cents per m2, s or kg, cents at once, or a share of the price.
struct MoneyAmount {
    MoneyPer per = MoneyPer::once;
    double amount = 0.0;
    std::string written;
};

/// Reads amounts and holds them to one currency.
class MoneyReader {
public:
    MoneyReader(std::string currency, double bushel_lb) : currency_(std::move(currency)), bushel_lb_(bushel_lb) {}
    [[nodiscard]] std::optional<MoneyAmount> amount(const TableReader& table, const std::string& key);
    [[nodiscard]] const std::string& currency() const { return currency_; }

private:
    [[nodiscard]] double cents_of(const TableReader& table, const std::string& key, const std::string& word);
    std::string currency_; ///< empty until a code is met
    double bushel_lb_;
};

/// Name of a method of the season, or stops.
[[nodiscard]] std::string method_word(const TableReader& table, const std::string& key, const std::string& name,
                                      const std::vector<Method>& methods);

} // namespace quartercut::season
