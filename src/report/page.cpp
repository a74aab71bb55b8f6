// SPDX-License-Identifier: MIT
// The page's frame: head with its policy, landmarks, the sections in reading order (report.hpp).
#include "quartercut/report.hpp"

#include "report/looks.hpp"
#include "report/plan_parts.hpp"
#include "report/policy.hpp"
#include "report/sections.hpp"

#include <vector>

namespace quartercut::report {
namespace {

using fmt::arg;

std::string subtitle(const Telling& telling) {
    const auto& season = telling.season();
    const auto& words = telling.words.page;
    std::string crop = season.crop;
    if (!crop.empty() && crop[0] >= 'a' && crop[0] <= 'z') crop[0] = static_cast<char>(crop[0] - 'a' + 'A');
    if (season.year == 0) return fill(words.subtitle_no_year, arg("crop", crop));
    return fill(words.subtitle, arg("crop", crop), arg("year", season.year));
}

void write_head(Html& html, const Telling& telling) {
    const auto head = html.in("head");
    html.empty("meta", {{"charset", "utf-8"}});
    html.empty("meta", {{"http-equiv", "Content-Security-Policy"}, {"content", security_policy(style_sheet, script)}});
    html.empty("meta", {{"name", "viewport"}, {"content", "width=device-width, initial-scale=1"}});
    html.empty("meta", {{"name", "color-scheme"}, {"content", "light dark"}});
    html.empty("meta", {{"name", "generator"}, {"content", "quartercut " + telling.results.version}});
    html.leaf("title", telling.season().title);
    const auto style = html.in("style");
    html.raw(style_sheet);
}

struct Place {
    const char* id;
    const char* text;
};

// The sections that stand on this page, in its order; those beside the comparison only where the season has them.
std::vector<Place> places(const Telling& telling) {
    const auto& words = telling.words.page;
    const auto& plan = telling.results.plan;
    std::vector<Place> out = {{"glance", words.farm_view}, {"fields", words.fields}};
    if (plan.money) out.push_back({"money", telling.words.plan.money});
    if (plan.losses || !plan.samples.empty()) out.push_back({"losses", telling.words.plan.losses});
    if (plan.weather) out.push_back({"weather", telling.words.plan.weather});
    for (const Place place :
         {Place{"cleaning", words.cleaning}, Place{"tickets", words.tickets}, Place{"moisture", words.moisture_date},
          Place{"limits", words.leaves_out}, Place{"agronomist", words.agronomist}, Place{"sources", words.sources}})
        out.push_back(place);
    return out;
}

void write_nav(Html& html, const Telling& telling) {
    const auto nav = html.in("nav", {{"aria-labelledby", "nav-heading"}});
    html.leaf("h3", telling.words.page.nav, {{"id", "nav-heading"}});
    const auto list = html.in("ul");
    for (const Place& place : places(telling)) {
        const auto item = html.in("li");
        html.leaf("a", place.text, {{"href", "#" + std::string(place.id)}});
    }
}

void write_sections(Html& html, const Telling& telling) {
    write_answer(html, telling);
    write_nav(html, telling);
    write_glance(html, telling);
    write_fields(html, telling);
    write_plan(html, telling);
    write_cleaning(html, telling);
    write_tickets(html, telling);
    write_moisture(html, telling);
    write_limits(html, telling);
    write_agronomist(html, telling);
    write_sources(html, telling);
}

void write_body(Html& html, const Telling& telling) {
    const auto& words = telling.words.page;
    Attributes said_by_script = {{"data-readout", words.readout}, {"data-zone-readout", words.zone_readout},
                                 {"data-copy", words.copy},       {"data-copied", words.copied},
                                 {"data-unfold", words.unfold},   {"data-fold", words.fold}};
    if (!telling.figures.speaks_si()) {
        said_by_script.push_back({"data-show-si", fill(words.show_unit, arg("unit", telling.figures.in_si().unit()))});
        said_by_script.push_back({"data-show-own", fill(words.show_unit, arg("unit", telling.figures.unit()))});
    }
    const auto body = html.in("body", said_by_script);
    html.leaf("a", words.skip, {{"class", "skip"}, {"href", "#answer"}});
    write_hatches(html, telling.season().methods.size());
    {
        const auto header = html.in("header");
        html.leaf("h1", telling.season().title);
        html.leaf("p", subtitle(telling), {{"class", "subtitle"}});
    }
    {
        const auto main = html.in("main", {{"id", "main"}});
        write_sections(html, telling);
    }
    {
        const auto footer = html.in("footer");
        html.leaf("p", words.print_note, {{"class", "screen-only"}});
        html.leaf("p", fill(words.footer, arg("version", telling.results.version)));
    }
    const auto element = html.in("script");
    html.raw(script);
}

} // namespace
} // namespace quartercut::report

namespace quartercut {

std::string report_html(const Results& results) {
    const report::Telling telling(results);
    report::Html html;
    html.raw("<!DOCTYPE html>\n");
    {
        const auto root = html.in("html", {{"lang", telling.words.language}});
        report::write_head(html, telling);
        report::write_body(html, telling);
    }
    return html.page();
}

} // namespace quartercut
