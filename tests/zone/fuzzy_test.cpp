// SPDX-License-Identifier: MIT
// Fuzzy c-means against numbers from R: package e1071 1.7-13, function cmeans, on the data set "iris" of R itself
// (Anderson 1935, Bull. Am. Iris Soc. 59, 2-5; Fisher 1936, Annals of Eugenics 7, 179-188).
#include "zone/fuzzy.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

namespace quartercut::zone_room {
namespace {

/// Sepal length and width, petal length and width (cm), 150 flowers.
const NumberTable& iris() {
    static const NumberTable table{
        4,
        {
            // clang-format off
    5.1, 3.5, 1.4, 0.2, 4.9, 3.0, 1.4, 0.2, 4.7, 3.2, 1.3, 0.2, 4.6, 3.1, 1.5, 0.2, 5.0, 3.6, 1.4, 0.2,
    5.4, 3.9, 1.7, 0.4, 4.6, 3.4, 1.4, 0.3, 5.0, 3.4, 1.5, 0.2, 4.4, 2.9, 1.4, 0.2, 4.9, 3.1, 1.5, 0.1,
    5.4, 3.7, 1.5, 0.2, 4.8, 3.4, 1.6, 0.2, 4.8, 3.0, 1.4, 0.1, 4.3, 3.0, 1.1, 0.1, 5.8, 4.0, 1.2, 0.2,
    5.7, 4.4, 1.5, 0.4, 5.4, 3.9, 1.3, 0.4, 5.1, 3.5, 1.4, 0.3, 5.7, 3.8, 1.7, 0.3, 5.1, 3.8, 1.5, 0.3,
    5.4, 3.4, 1.7, 0.2, 5.1, 3.7, 1.5, 0.4, 4.6, 3.6, 1.0, 0.2, 5.1, 3.3, 1.7, 0.5, 4.8, 3.4, 1.9, 0.2,
    5.0, 3.0, 1.6, 0.2, 5.0, 3.4, 1.6, 0.4, 5.2, 3.5, 1.5, 0.2, 5.2, 3.4, 1.4, 0.2, 4.7, 3.2, 1.6, 0.2,
    4.8, 3.1, 1.6, 0.2, 5.4, 3.4, 1.5, 0.4, 5.2, 4.1, 1.5, 0.1, 5.5, 4.2, 1.4, 0.2, 4.9, 3.1, 1.5, 0.2,
    5.0, 3.2, 1.2, 0.2, 5.5, 3.5, 1.3, 0.2, 4.9, 3.6, 1.4, 0.1, 4.4, 3.0, 1.3, 0.2, 5.1, 3.4, 1.5, 0.2,
    5.0, 3.5, 1.3, 0.3, 4.5, 2.3, 1.3, 0.3, 4.4, 3.2, 1.3, 0.2, 5.0, 3.5, 1.6, 0.6, 5.1, 3.8, 1.9, 0.4,
    4.8, 3.0, 1.4, 0.3, 5.1, 3.8, 1.6, 0.2, 4.6, 3.2, 1.4, 0.2, 5.3, 3.7, 1.5, 0.2, 5.0, 3.3, 1.4, 0.2,
    7.0, 3.2, 4.7, 1.4, 6.4, 3.2, 4.5, 1.5, 6.9, 3.1, 4.9, 1.5, 5.5, 2.3, 4.0, 1.3, 6.5, 2.8, 4.6, 1.5,
    5.7, 2.8, 4.5, 1.3, 6.3, 3.3, 4.7, 1.6, 4.9, 2.4, 3.3, 1.0, 6.6, 2.9, 4.6, 1.3, 5.2, 2.7, 3.9, 1.4,
    5.0, 2.0, 3.5, 1.0, 5.9, 3.0, 4.2, 1.5, 6.0, 2.2, 4.0, 1.0, 6.1, 2.9, 4.7, 1.4, 5.6, 2.9, 3.6, 1.3,
    6.7, 3.1, 4.4, 1.4, 5.6, 3.0, 4.5, 1.5, 5.8, 2.7, 4.1, 1.0, 6.2, 2.2, 4.5, 1.5, 5.6, 2.5, 3.9, 1.1,
    5.9, 3.2, 4.8, 1.8, 6.1, 2.8, 4.0, 1.3, 6.3, 2.5, 4.9, 1.5, 6.1, 2.8, 4.7, 1.2, 6.4, 2.9, 4.3, 1.3,
    6.6, 3.0, 4.4, 1.4, 6.8, 2.8, 4.8, 1.4, 6.7, 3.0, 5.0, 1.7, 6.0, 2.9, 4.5, 1.5, 5.7, 2.6, 3.5, 1.0,
    5.5, 2.4, 3.8, 1.1, 5.5, 2.4, 3.7, 1.0, 5.8, 2.7, 3.9, 1.2, 6.0, 2.7, 5.1, 1.6, 5.4, 3.0, 4.5, 1.5,
    6.0, 3.4, 4.5, 1.6, 6.7, 3.1, 4.7, 1.5, 6.3, 2.3, 4.4, 1.3, 5.6, 3.0, 4.1, 1.3, 5.5, 2.5, 4.0, 1.3,
    5.5, 2.6, 4.4, 1.2, 6.1, 3.0, 4.6, 1.4, 5.8, 2.6, 4.0, 1.2, 5.0, 2.3, 3.3, 1.0, 5.6, 2.7, 4.2, 1.3,
    5.7, 3.0, 4.2, 1.2, 5.7, 2.9, 4.2, 1.3, 6.2, 2.9, 4.3, 1.3, 5.1, 2.5, 3.0, 1.1, 5.7, 2.8, 4.1, 1.3,
    6.3, 3.3, 6.0, 2.5, 5.8, 2.7, 5.1, 1.9, 7.1, 3.0, 5.9, 2.1, 6.3, 2.9, 5.6, 1.8, 6.5, 3.0, 5.8, 2.2,
    7.6, 3.0, 6.6, 2.1, 4.9, 2.5, 4.5, 1.7, 7.3, 2.9, 6.3, 1.8, 6.7, 2.5, 5.8, 1.8, 7.2, 3.6, 6.1, 2.5,
    6.5, 3.2, 5.1, 2.0, 6.4, 2.7, 5.3, 1.9, 6.8, 3.0, 5.5, 2.1, 5.7, 2.5, 5.0, 2.0, 5.8, 2.8, 5.1, 2.4,
    6.4, 3.2, 5.3, 2.3, 6.5, 3.0, 5.5, 1.8, 7.7, 3.8, 6.7, 2.2, 7.7, 2.6, 6.9, 2.3, 6.0, 2.2, 5.0, 1.5,
    6.9, 3.2, 5.7, 2.3, 5.6, 2.8, 4.9, 2.0, 7.7, 2.8, 6.7, 2.0, 6.3, 2.7, 4.9, 1.8, 6.7, 3.3, 5.7, 2.1,
    7.2, 3.2, 6.0, 1.8, 6.2, 2.8, 4.8, 1.8, 6.1, 3.0, 4.9, 1.8, 6.4, 2.8, 5.6, 2.1, 7.2, 3.0, 5.8, 1.6,
    7.4, 2.8, 6.1, 1.9, 7.9, 3.8, 6.4, 2.0, 6.4, 2.8, 5.6, 2.2, 6.3, 2.8, 5.1, 1.5, 6.1, 2.6, 5.6, 1.4,
    7.7, 3.0, 6.1, 2.3, 6.3, 3.4, 5.6, 2.4, 6.4, 3.1, 5.5, 1.8, 6.0, 3.0, 4.8, 1.8, 6.9, 3.1, 5.4, 2.1,
    6.7, 3.1, 5.6, 2.4, 6.9, 3.1, 5.1, 2.3, 5.8, 2.7, 5.1, 1.9, 6.8, 3.2, 5.9, 2.3, 6.7, 3.3, 5.7, 2.5,
    6.7, 3.0, 5.2, 2.3, 6.3, 2.5, 5.0, 1.9, 6.5, 3.0, 5.2, 2.0, 6.2, 3.4, 5.4, 2.3, 5.9, 3.0, 5.1, 1.8,
            // clang-format on
        }};
    return table;
}

FuzzyOptions options(double exponent) {
    FuzzyOptions made;
    made.exponent = exponent;
    made.tolerance = 1e-9;
    return made;
}

/// The reference stops where its objective improves by less than 1.5e-8 of itself, a little short of the centres' rest:
/// hence the tolerances.
TEST(FuzzyClasses, AreThoseOfTheReferenceForThreeClasses) {
    const FuzzyClasses found = fuzzy_classes(iris(), 3, options(2.0));
    EXPECT_NEAR(found.objective, 60.50571, 1e-5);
    EXPECT_NEAR(found.partition_coefficient, 0.7833955, 1e-5);
    EXPECT_NEAR(found.fpi, 0.3249067, 1e-5);
    EXPECT_NEAR(found.entropy, 0.3954930, 1e-5);
    EXPECT_NEAR(found.nce, 0.4035643, 1e-5);
    std::vector<std::vector<double>> centres;
    for (std::size_t k = 0; k < 3; ++k)
        centres.push_back(
            {found.centres.at(k, 0), found.centres.at(k, 1), found.centres.at(k, 2), found.centres.at(k, 3)});
    std::sort(centres.begin(), centres.end());
    const std::vector<std::vector<double>> reference{{5.00397, 3.41409, 1.48281, 0.25354},
                                                     {5.88888, 2.76105, 4.36386, 1.39727},
                                                     {6.77495, 3.05236, 5.64670, 2.05352}};
    for (std::size_t k = 0; k < 3; ++k)
        for (std::size_t c = 0; c < 4; ++c)
            EXPECT_NEAR(centres[k][c], reference[k][c], 2e-4) << k << " " << c;
}

TEST(FuzzyClasses, HaveTheIndicesOfTheReferenceForOtherCounts) {
    const struct {
        std::size_t classes;
        double fpi, nce;
    } reference[] = {{2, 0.2155666, 0.1983865}, {4, 0.3909483, 0.5765037}, {5, 0.4177816, 0.6984018}};
    for (const auto& each : reference) {
        const FuzzyClasses found = fuzzy_classes(iris(), each.classes, options(2.0));
        EXPECT_NEAR(found.fpi, each.fpi, 5e-5) << each.classes;
        EXPECT_NEAR(found.nce, each.nce, 5e-5) << each.classes;
    }
}

/// With an exponent near 1 the classes are hard, those of k-means; R's kmeans leaves 78.85144 of 681.3706 within three
/// classes (R 4.2.2).
TEST(FuzzyClasses, BecomeHardAsTheExponentFalls) {
    const FuzzyClasses found = fuzzy_classes(iris(), 3, options(1.05));
    EXPECT_NEAR(found.explained, 1.0 - 78.85144 / 681.3706, 2e-4);
    EXPECT_GT(found.partition_coefficient, 0.97);
}

TEST(FuzzyClasses, OfAThinnedFitAreThoseOfTheWholeOne) {
    FuzzyOptions thinned = options(2.0);
    thinned.most_fitted = 60;
    EXPECT_NEAR(fuzzy_classes(iris(), 3, thinned).objective, 60.50571, 1e-5);
}

TEST(FuzzyClasses, HaveMembershipsThatAddUpToOne) {
    const FuzzyClasses found = fuzzy_classes(iris(), 4, FuzzyOptions{});
    for (std::size_t row = 0; row < found.memberships.rows(); ++row) {
        double sum = 0.0;
        for (std::size_t k = 0; k < 4; ++k)
            sum += found.memberships.at(row, k);
        ASSERT_NEAR(sum, 1.0, 1e-12);
    }
}

FuzzyClasses made(std::size_t classes, double fpi, double nce, double explained) {
    FuzzyClasses each;
    each.classes = classes;
    each.fpi = fpi;
    each.nce = nce;
    each.explained = explained;
    return each;
}

TEST(ClassCount, IsWhereBothIndicesAreSmallest) {
    EXPECT_EQ(choose_classes({made(2, 0.3, 0.3, 0.5), made(3, 0.2, 0.1, 0.8), made(4, 0.4, 0.5, 0.9)}), 3u);
}

TEST(ClassCount, StaysSmallWhereTheyDisagreeAndMoreExplainsLittle) {
    EXPECT_EQ(choose_classes({made(2, 0.1, 0.3, 0.50), made(3, 0.2, 0.1, 0.60), made(4, 0.4, 0.5, 0.64)}), 3u);
    EXPECT_EQ(choose_classes({made(2, 0.1, 0.3, 0.50), made(3, 0.2, 0.1, 0.54), made(4, 0.4, 0.5, 0.90)}), 2u);
}

} // namespace
} // namespace quartercut::zone_room
