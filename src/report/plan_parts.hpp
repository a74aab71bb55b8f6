// SPDX-License-Identifier: MIT
// What the pages and sections about plans share.
#pragma once

#include "quartercut/plan_choose.hpp"
#include "report/figures.hpp"
#include "report/html.hpp"
#include "report/table.hpp"

#include <functional>
#include <optional>
#include <string>
#include <vector>

namespace quartercut::report {

struct Telling;

/// A page of its own: head with its policy, title, body.
[[nodiscard]] std::string plain_page(const std::string& title, const std::string& subtitle,
                                     const std::function<void(Html&)>& body);

void write_list(Html& html, const std::vector<std::string>& items, const char* list_class = "");

/// "$12.30", "-$4.00", "not known"; of cents.
[[nodiscard]] std::string money_text(const std::optional<double>& cents, int decimals = 2);
/// Cents per hectare as money per acre where the season speaks of acres, else per hectare.
[[nodiscard]] std::string per_land(const Season& season, const std::optional<double>& cents_ha);
/// Of 100; "more than 95" and "less than 5" at the ends, where a number would claim more than is known.
[[nodiscard]] std::string chance_of_100(double chance);
[[nodiscard]] const char* land_word(const Season& season);             ///< "acre" or "hectare"
[[nodiscard]] const char* lands_word(const Season& season);            ///< "acres" or "hectares"
[[nodiscard]] double land_areas(const Season& season, double area_ha); ///< acres or hectares

/// Money, losses, samples and weather of a season, where the season file asks for them. The page's hook.
void write_plan(Html& html, const Telling& telling);
/// The money of the best evidence in one sentence for the terminal; empty where nothing is priced.
[[nodiscard]] std::string money_line(const Telling& telling);
void write_money(Html& html, const Telling& telling);
void write_losses(Html& html, const Telling& telling);
void write_weather(Html& html, const Telling& telling);

} // namespace quartercut::report
