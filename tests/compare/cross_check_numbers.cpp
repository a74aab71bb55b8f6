// SPDX-License-Identifier: MIT
// Prints the numbers that cross_check.R compares with its own: name,ours. Usage: cross_check_numbers DATA_FOLDER
#include "compare/components.hpp"
#include "compare/pooling.hpp"
#include "compare/spatial_model.hpp"
#include "csv.hpp"

#include <chrono>
#include <cmath>
#include <cstdio>

namespace quartercut::contrast {
namespace {

using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::VectorXd;
using testing::codes;
using testing::numbers;
using testing::read_csv_file;

void print(const char* name, double value) { std::printf("%s,%.12g\n", name, value); }

VectorXd as_vector(const std::vector<double>& values) {
    return Eigen::Map<const VectorXd>(values.data(), static_cast<Index>(values.size()));
}

MatrixXd indicators(const std::vector<int>& code, int levels) {
    MatrixXd out = MatrixXd::Zero(static_cast<Index>(code.size()), levels);
    for (std::size_t i = 0; i < code.size(); ++i)
        out(static_cast<Index>(i), code[i]) = 1.0;
    return out;
}

void wheat2(const std::string& folder) {
    const auto csv = read_csv_file(folder + "/wheat2.csv");
    const auto variety = codes(csv.at("variety"));
    Cells cells;
    cells.along_m = as_vector(numbers(csv, "latitude"));
    cells.across_m = as_vector(numbers(csv, "longitude"));
    cells.yield_t_ha = as_vector(numbers(csv, "yield"));
    cells.weight = VectorXd::Ones(cells.size());
    cells.pass.assign(variety.size(), 0);
    cells.x = indicators(variety, 56);
    const auto started = std::chrono::steady_clock::now();
    const auto fit = fit_spatial(cells, {Correlation::spherical, false, true, false}, {600, 1e-7, {}});
    const std::chrono::duration<double> seconds = std::chrono::steady_clock::now() - started;
    const double total = fit->at.sill + fit->at.nugget;
    const Gls gls = *fit_gls(covariance(cells, fit->form, fit->at), cells.x, cells.yield_t_ha);
    Index arapahoe = 0;
    Index lancer = 0;
    for (std::size_t i = 0; i < variety.size(); ++i) {
        if (csv.at("variety")[i] == "ARAPAHOE") arapahoe = variety[i];
        if (csv.at("variety")[i] == "LANCER") lancer = variety[i];
    }
    print("wheat2 spherical range", fit->at.range_m);
    print("wheat2 spherical nugget share", fit->at.nugget / total);
    print("wheat2 spherical sigma", std::sqrt(total));
    print("wheat2 spherical loglik", fit->loglik);
    print("wheat2 ARAPAHOE - LANCER", gls.beta(arapahoe) - gls.beta(lancer));
    print("wheat2 seconds", seconds.count());
}

void immer(const std::string& folder) {
    const auto csv = read_csv_file(folder + "/immer.csv");
    const auto first = numbers(csv, "Y1");
    const auto second = numbers(csv, "Y2");
    std::vector<double> y;
    std::vector<double> year;
    std::vector<int> block;
    for (std::size_t row = 1; row <= 60; ++row) {
        if (row == 1 || row == 5 || row == 9 || row == 33) continue;
        const std::size_t i = (row - 1) % 30;
        y.push_back(row <= 30 ? first[i] : second[i]);
        year.push_back(row <= 30 ? 0.0 : 1.0);
        block.push_back(static_cast<int>(i));
    }
    ComponentModel model;
    const auto n = static_cast<Index>(y.size());
    model.x = MatrixXd::Ones(n, 2);
    model.x.col(1) = as_vector(year);
    model.y = as_vector(y);
    model.parts = {group_part(block), identity_part(n)};
    const auto fit = fit_components(model);
    const MeanTest test = kenward_roger(model, *fit).contrast(Eigen::Vector2d(0.0, 1.0));
    print("immer effect", test.estimate);
    print("immer KR se", test.se);
    print("immer KR df", test.df);
}

void oats(const std::string& folder) {
    const auto csv = read_csv_file(folder + "/oats.csv");
    const auto block = codes(csv.at("B"));
    const auto variety = codes(csv.at("V"));
    std::vector<int> plot;
    for (std::size_t i = 0; i < block.size(); ++i)
        plot.push_back(block[i] * 3 + variety[i]);
    ComponentModel model;
    model.x = MatrixXd::Ones(72, 6);
    model.x.middleCols(1, 2) = indicators(variety, 3).rightCols(2);
    model.x.middleCols(3, 3) = indicators(codes(csv.at("N")), 4).rightCols(3);
    model.y = as_vector(numbers(csv, "Y"));
    model.parts = {group_part(block), group_part(plot), identity_part(72)};
    const auto fit = fit_components(model);
    MatrixXd nitrogen = MatrixXd::Zero(6, 3);
    nitrogen.bottomRows(3) = MatrixXd::Identity(3, 3);
    print("oats KR F of nitrogen", kenward_roger(model, *fit).f_test(nitrogen).f);
    print("oats loglik", fit->loglik);
}

void bcg(const std::string& folder) {
    const auto csv = read_csv_file(folder + "/bcg.csv");
    const Pooled pooled = pool(numbers(csv, "yi"), numbers(csv, "vi"), TauMethod::reml);
    print("bcg mean", pooled.mean);
    print("bcg tau2", pooled.tau2);
    print("bcg mKH se", pooled.se_mhk);
}

} // namespace
} // namespace quartercut::contrast

int main(int argc, char** argv) {
    if (argc != 2) {
        std::fprintf(stderr, "Usage: cross_check_numbers DATA_FOLDER\n");
        return 2;
    }
    std::printf("name,ours\n");
    quartercut::contrast::wheat2(argv[1]);
    quartercut::contrast::immer(argv[1]);
    quartercut::contrast::oats(argv[1]);
    quartercut::contrast::bcg(argv[1]);
    return 0;
}
