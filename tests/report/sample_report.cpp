// SPDX-License-Identifier: MIT
// Writes the page of the hand-made season to the file named, for the browser check.
#include "quartercut/report.hpp"
#include "support/sample_results.hpp"

#include <fstream>
#include <iostream>

int main(int argc, char** argv) {
    if (argc != 2) {
        std::cerr << "usage: sample_report FILE.html\n";
        return 2;
    }
    const auto results = quartercut::sample::results();
    std::ofstream(argv[1]) << quartercut::report_html(results);
    for (const auto& sentence : quartercut::answer_sentences(results))
        std::cout << sentence << "\n\n";
    return 0;
}
