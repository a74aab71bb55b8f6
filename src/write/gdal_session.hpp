// SPDX-License-Identifier: MIT
// GDAL as this room uses it: only the drivers needed, nothing printed, every error a WriteError with GDAL's own words,
// and a fixed clock so that the same results give the same bytes.
#pragma once

#include <gdal_priv.h>
#include <ogr_spatialref.h>
#include <ogrsf_frmts.h>

#include <filesystem>
#include <memory>
#include <string>
#include <vector>

namespace quartercut::write {

/// While alive: GDAL's messages of this thread are collected, not printed, and OGR's clock stands still.
/// Registers the drivers on first use.
class GdalSession {
public:
    GdalSession();
    ~GdalSession();
    GdalSession(const GdalSession&) = delete;
    GdalSession& operator=(const GdalSession&) = delete;
    /// The errors so far as one line; empty when there were none.
    [[nodiscard]] std::string errors() const;
    /// \throws WriteError  "FILE: cannot WHAT: GDAL's words"
    [[noreturn]] void fail(const std::filesystem::path& file, const std::string& what) const;
    /// Fails when GDAL reported an error since the session began.
    void check(const std::filesystem::path& file, const std::string& what) const;

private:
    std::vector<std::string> messages_;
    bool inner_ = false; ///< does another session of this thread stand around it?
};

struct CloseDataset {
    void operator()(GDALDataset* dataset) const { GDALClose(dataset); }
};
using DatasetPtr = std::unique_ptr<GDALDataset, CloseDataset>;

/// Options in the shape GDAL takes them: "KEY=VALUE".
class OptionList {
public:
    OptionList(std::initializer_list<const char*> items);
    ~OptionList() { CSLDestroy(list_); }
    OptionList(const OptionList&) = delete;
    OptionList& operator=(const OptionList&) = delete;
    void set(const char* key, const std::string& value) { list_ = CSLSetNameValue(list_, key, value.c_str()); }
    [[nodiscard]] char** get() const { return list_; }

private:
    char** list_ = nullptr;
};

/// Creates an empty data set. \throws WriteError
[[nodiscard]] DatasetPtr create_dataset(const GdalSession& session, const char* driver,
                                        const std::filesystem::path& file, const OptionList& options);

/// Closes and flushes; the last place where a full disk shows. \throws WriteError
void close_dataset(const GdalSession& session, DatasetPtr dataset, const std::filesystem::path& file);

/// WGS 84 with x = longitude, y = latitude.
[[nodiscard]] OGRSpatialReference wgs84();

} // namespace quartercut::write
