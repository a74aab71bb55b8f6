// SPDX-License-Identifier: MIT
#include "report/plan_parts.hpp"

#include "report/looks.hpp"
#include "report/policy.hpp"
#include "report/telling.hpp"

#include <cmath>

namespace quartercut::report {

std::string plain_page(const std::string& title, const std::string& subtitle, const std::function<void(Html&)>& body) {
    Html html;
    html.raw("<!DOCTYPE html>\n");
    {
        const auto root = html.in("html", {{"lang", spoken().language}});
        {
            const auto head = html.in("head");
            html.empty("meta", {{"charset", "utf-8"}});
            html.empty("meta",
                       {{"http-equiv", "Content-Security-Policy"}, {"content", security_policy(style_sheet, "")}});
            html.empty("meta", {{"name", "viewport"}, {"content", "width=device-width, initial-scale=1"}});
            html.leaf("title", title);
            const auto style = html.in("style");
            html.raw(style_sheet);
        }
        const auto whole = html.in("body");
        {
            const auto header = html.in("header");
            html.leaf("h1", title);
            html.leaf("p", subtitle, {{"class", "subtitle"}});
        }
        const auto main = html.in("main", {{"id", "main"}});
        body(html);
    }
    return html.page();
}

void write_list(Html& html, const std::vector<std::string>& items, const char* list_class) {
    if (items.empty()) return;
    const auto list = *list_class == '\0' ? html.in("ul") : html.in("ul", {{"class", list_class}});
    for (const std::string& item : items)
        html.leaf("li", item);
}

std::string money_text(const std::optional<double>& cents, int decimals) {
    if (!cents || !std::isfinite(*cents)) return spoken().numbers.unknown;
    const auto& words = spoken().plan;
    const std::string amount = fixed(std::abs(*cents) / 100.0, decimals);
    const bool nothing = amount.find_first_of("123456789") == std::string::npos;
    return fill(*cents < 0.0 && !nothing ? words.amount_less : words.amount, fmt::arg("amount", in_thousands(amount)));
}

bool speaks_acres(const Season& season) { return quartercut::speaks_acres(season.units); }

std::string per_land(const Season& season, const std::optional<double>& cents_ha) {
    if (!cents_ha) return money_text(cents_ha);
    return money_text(speaks_acres(season) ? *cents_ha * m2_per_acre / m2_per_hectare : *cents_ha);
}

std::string chance_of_100(double chance) {
    const auto& words = spoken().money;
    if (chance > 0.95) return words.chance_high;
    if (chance < 0.05) return words.chance_low;
    return fixed(100.0 * chance, 0);
}

const char* land_word(const Season& season) {
    return speaks_acres(season) ? spoken().plan.acre : spoken().plan.hectare;
}

const char* lands_word(const Season& season) {
    return speaks_acres(season) ? spoken().plan.acres : spoken().plan.hectares;
}

double land_areas(const Season& season, double area_ha) {
    return speaks_acres(season) ? area_ha * m2_per_hectare / m2_per_acre : area_ha;
}

} // namespace quartercut::report
