// SPDX-License-Identifier: MIT
// Prints the numbers that cross_check.R compares with its own: name,ours. Usage: cross_check_numbers DATA_FOLDER
#include "compare/components.hpp"
#include "compare/pooling.hpp"
#include "compare/spatial_model.hpp"
#include "csv.hpp"

#include <cmath>
#include <cstdio>
#include <ctime>

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
    const auto fit = fit_spatial(cells, {Correlation::spherical, false, true, false}, {600, 1e-7, {}});
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
}

/// The fit whose time is compared with R's: from the same start, searched as finely as the comparison does. Processor
/// time, so that other work on the machine does not count.
void mercer_hall(const std::string& folder) {
    const auto csv = read_csv_file(folder + "/mercer_hall_wheat.csv");
    Cells cells;
    cells.across_m = as_vector(numbers(csv, "lon"));
    cells.along_m = as_vector(numbers(csv, "lat"));
    cells.yield_t_ha = as_vector(numbers(csv, "yield"));
    cells.weight = VectorXd::Ones(cells.size());
    cells.pass.assign(static_cast<std::size_t>(cells.size()), 0);
    cells.x = MatrixXd::Ones(cells.size(), 1);
    const std::clock_t started = std::clock();
    const auto fit = fit_spatial(cells, {Correlation::exponential, false, true, false},
                                 {60, 1e-3, SpatialParameters{0.66, 10.0, 0.34, 0.0, 1.0}});
    const double seconds = static_cast<double>(std::clock() - started) / CLOCKS_PER_SEC;
    const Gls gls = *fit_gls(covariance(cells, fit->form, fit->at), cells.x, cells.yield_t_ha);
    print("mercer-hall exponential range", fit->at.range_m);
    print("mercer-hall sill", fit->at.sill);
    print("mercer-hall loglik", fit->loglik);
    print("mercer-hall mean", gls.beta(0));
    print("mercer-hall mean se", std::sqrt(gls.phi(0, 0)));
    print("mercer-hall seconds", seconds);
}

void beets(const std::string& folder) {
    const auto csv = read_csv_file(folder + "/beets.csv");
    const auto block = codes(csv.at("block"));
    const auto harvest = codes(csv.at("harvest"));
    std::vector<int> plot;
    for (std::size_t i = 0; i < block.size(); ++i)
        plot.push_back(2 * block[i] + harvest[i]);
    ComponentModel model;
    model.x = MatrixXd::Ones(30, 8);
    model.x.middleCols(1, 2) = indicators(block, 3).rightCols(2);
    model.x.middleCols(3, 4) = indicators(codes(csv.at("sow")), 5).rightCols(4);
    model.x.col(7) = indicators(harvest, 2).col(1);
    model.y = as_vector(numbers(csv, "sugpct"));
    model.parts = {group_part(plot), identity_part(30)};
    MatrixXd l = MatrixXd::Zero(8, 1);
    l(7, 0) = 1.0;
    const auto test = kenward_roger(model, *fit_components(model)).f_test(l);
    print("beets KR F of harvest", test.f);
    print("beets KR df", test.denominator_df);
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

void konstantopoulos(const std::string& folder) {
    const auto csv = read_csv_file(folder + "/konstantopoulos2011.csv");
    const auto fit = pool_two_level(numbers(csv, "yi"), numbers(csv, "vi"), codes(csv.at("district")));
    print("two-level mean", fit->mean.estimate);
    print("two-level se", fit->mean.se);
    print("two-level between groups", fit->between_years2);
    print("two-level within groups", fit->between_fields2);
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
    quartercut::contrast::mercer_hall(argv[1]);
    quartercut::contrast::immer(argv[1]);
    quartercut::contrast::beets(argv[1]);
    quartercut::contrast::oats(argv[1]);
    quartercut::contrast::bcg(argv[1]);
    quartercut::contrast::konstantopoulos(argv[1]);
    return 0;
}
