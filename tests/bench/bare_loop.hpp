// SPDX-License-Identifier: MIT
// GDAL's bare reading, as any first program would do it: every feature, its point, every field as a number or a text.
#pragma once

#include <ogrsf_frmts.h>

/// A sum of all that was read, so that nothing is left out.
inline double bare_loop(GDALDataset& dataset) {
    double sum = 0.0;
    for (const OGRFeatureUniquePtr& feature : *dataset.GetLayer(0)) {
        const OGRPoint* point = feature->GetGeometryRef()->toPoint();
        sum += point->getX() + point->getY();
        for (int i = 0; i < feature->GetFieldCount(); ++i)
            sum += feature->GetFieldDefnRef(i)->GetType() == OFTString ? feature->GetFieldAsString(i)[0]
                                                                       : feature->GetFieldAsDouble(i);
    }
    return sum;
}
