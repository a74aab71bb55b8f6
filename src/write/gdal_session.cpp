// SPDX-License-Identifier: MIT
// The GDAL session: drivers, errors, clock. See gdal_session.hpp.
#include "write/gdal_session.hpp"

#include "quartercut/error.hpp"

#include <cpl_conv.h>
#include <gdal_frmts.h>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <cerrno>
#include <cstring>
#include <mutex>

namespace quartercut::write {

namespace {

// Any fixed moment would do: it marks that no clock was read.
constexpr const char* fixed_date = "2000-01-01T00:00:00.000Z";

void register_drivers() {
    static std::once_flag once;
    std::call_once(once, [] {
        RegisterOGRGeoPackage();
        RegisterOGRGeoJSON();
        RegisterOGRLIBKML();
        RegisterOGRFlatGeobuf();
        RegisterOGRShape();
        GDALRegister_MEM();
        GDALRegister_GTiff();
        GDALRegister_COG();
    });
}

void CPL_STDCALL collect(CPLErr level, CPLErrorNum, const char* message) {
    if (level < CE_Failure) return;
    static_cast<std::vector<std::string>*>(CPLGetErrorHandlerUserData())->emplace_back(message);
}

} // namespace

// A thread that waits in one file may take up another: the inner session must leave the outer one's clock standing still.
GdalSession::GdalSession() : inner_(CPLGetThreadLocalConfigOption("OGR_CURRENT_DATE", nullptr) != nullptr) {
    register_drivers();
    CPLPushErrorHandlerEx(collect, &messages_);
    CPLSetThreadLocalConfigOption("OGR_CURRENT_DATE", fixed_date);
}

GdalSession::~GdalSession() {
    if (!inner_) CPLSetThreadLocalConfigOption("OGR_CURRENT_DATE", nullptr);
    CPLPopErrorHandler();
}

std::string GdalSession::errors() const { return fmt::format("{}", fmt::join(messages_, "; ")); }

void GdalSession::fail(const std::filesystem::path& file, const std::string& what) const {
    // The first complaint is the cause; what follows from it can run to pages of SQL.
    constexpr std::size_t enough = 200;
    std::string why = messages_.empty() ? std::string(std::strerror(errno)) : messages_.front();
    if (why.size() > enough) why = why.substr(0, enough) + " ...";
    throw WriteError(fmt::format("{}: cannot {}: {}. Check that the folder may be written and the disk has room.",
                                 file.filename().string(), what, why));
}

void GdalSession::check(const std::filesystem::path& file, const std::string& what) const {
    if (!messages_.empty()) fail(file, what);
}

OptionList::OptionList(std::initializer_list<const char*> items) {
    for (const char* item : items)
        list_ = CSLAddString(list_, item);
}

DatasetPtr create_dataset(const GdalSession& session, const char* driver, const std::filesystem::path& file,
                          const OptionList& options) {
    GDALDriver* maker = GetGDALDriverManager()->GetDriverByName(driver);
    if (maker == nullptr) {
        throw WriteError(fmt::format("{}: this GDAL has no {} driver. Install GDAL with it, or leave the format out.",
                                     file.filename().string(), driver));
    }
    DatasetPtr dataset(maker->Create(file.c_str(), 0, 0, 0, GDT_Unknown, options.get()));
    if (!dataset) session.fail(file, "create the file");
    return dataset;
}

void close_dataset(const GdalSession& session, DatasetPtr dataset, const std::filesystem::path& file) {
    dataset->FlushCache();
    dataset.reset();
    session.check(file, "write the file");
}

OGRSpatialReference wgs84() {
    OGRSpatialReference crs;
    crs.importFromEPSG(4326);
    crs.SetAxisMappingStrategy(OAMS_TRADITIONAL_GIS_ORDER);
    return crs;
}

} // namespace quartercut::write
