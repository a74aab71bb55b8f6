// SPDX-License-Identifier: MIT
// GDAL's bare reading of a file, as any first program would do it: every feature, its point, every field. Prints the
// seconds it took by the clock.
#include <chrono>
#include <cstdio>
#include <ogrsf_frmts.h>

int main(int argc, char** argv) {
    GDALAllRegister();
    const auto begin = std::chrono::steady_clock::now();
    const GDALDatasetUniquePtr dataset(argc == 2 ? GDALDataset::Open(argv[1], GDAL_OF_VECTOR) : nullptr);
    if (!dataset) {
        std::fputs("usage: bare_read FILE\n", stderr);
        return 2;
    }
    double sum = 0.0;
    for (const OGRFeatureUniquePtr& feature : *dataset->GetLayer(0)) {
        const OGRPoint* point = feature->GetGeometryRef()->toPoint();
        sum += point->getX() + point->getY();
        for (int i = 0; i < feature->GetFieldCount(); ++i)
            sum += feature->GetFieldDefnRef(i)->GetType() == OFTString ? feature->GetFieldAsString(i)[0]
                                                                       : feature->GetFieldAsDouble(i);
    }
    const std::chrono::duration<double> taken = std::chrono::steady_clock::now() - begin;
    std::printf("%.2f\n", taken.count());
    return sum == sum ? 0 : 1; // looked at, so that nothing is left out
}
