// SPDX-License-Identifier: MIT
// The results folder of `compare`: every file built beside the target, then swapped in as one.
#include "job/steps.hpp"

#include "quartercut/report.hpp"
#include "quartercut/write.hpp"

#include <tbb/parallel_invoke.h>

namespace quartercut {

std::filesystem::path results_folder(const std::filesystem::path& season_file, const JobOptions& options) {
    if (!options.out.empty()) return options.out;
    return season_file.parent_path() / "results";
}

void job::save(const Results& results, const std::filesystem::path& target, const JobOptions& options) {
    say(options, "writing the results");
    ResultsFolder folder(target);
    const auto texts = [&] {
        folder.write_text("comparison.json", comparison_json(results));
        folder.write_text("comparison.csv", comparison_csv(results));
        folder.write_text("inputs.json", inputs_json(results));
        folder.write_text("report.html", report_html(results));
        folder.write_text("report-data.cbor", report_data(results));
    };
    const auto maps = [&] { write_layers(results, folder.building(), options.formats); };
    with_threads(options.jobs, [&] { tbb::parallel_invoke(maps, texts); });
    folder.commit();
}

Results compare_season(const std::filesystem::path& season_file, const JobOptions& options) {
    Results results = compute_season(season_file, options);
    job::save(results, results_folder(season_file, options), options);
    return results;
}

std::filesystem::path draw_report_again(const std::filesystem::path& folder) {
    const Results results = read_report_data(folder);
    replace_result(folder, "report.html", report_html(results));
    return folder / "report.html";
}

} // namespace quartercut
