// SPDX-License-Identifier: MIT
// GDAL's bare reading of a file. Prints the seconds it took by the clock.
#include "bare_loop.hpp"

#include <chrono>
#include <cstdio>

int main(int argc, char** argv) {
    GDALAllRegister();
    const auto begin = std::chrono::steady_clock::now();
    const GDALDatasetUniquePtr dataset(argc == 2 ? GDALDataset::Open(argv[1], GDAL_OF_VECTOR) : nullptr);
    if (!dataset) {
        std::fputs("usage: bare_read FILE\n", stderr);
        return 2;
    }
    const double sum = bare_loop(*dataset);
    const std::chrono::duration<double> taken = std::chrono::steady_clock::now() - begin;
    std::printf("%.2f\n", taken.count());
    return sum == sum ? 0 : 1; // looked at, so that nothing is left out
}
