// SPDX-License-Identifier: MIT
// A field's metric frame: PROJ's transverse Mercator (Poder/Engsager series, exact to nanometres near its meridian),
// scale 1, on the WGS 84 ellipsoid.
//
// A PROJ transformation keeps state while it runs, so threads may not share one. Copies of a Frame share a small store
// of transformations instead: a call borrows one, or makes one when all are lent, and gives it back.
#include "quartercut/error.hpp"
#include "quartercut/standardise.hpp"

#include "base/text.hpp"

#include <fmt/format.h>
#include <proj.h>

#include <mutex>
#include <numbers>

namespace quartercut {

namespace {

constexpr double radians_per_degree = std::numbers::pi / 180.0;

/// One PROJ transformation with the context it must live in.
class Transformation {
public:
    explicit Transformation(const std::string& definition) : context_(proj_context_create()) {
        proj_log_level(context_, PJ_LOG_NONE);
        transformation_ = proj_create(context_, definition.c_str());
        if (transformation_ != nullptr) return;
        proj_context_destroy(context_);
        throw InternalError(fmt::format("The projection \"{}\" could not be made.", definition));
    }
    ~Transformation() {
        proj_destroy(transformation_);
        proj_context_destroy(context_);
    }
    Transformation(const Transformation&) = delete;
    Transformation& operator=(const Transformation&) = delete;

    void run(PJ_DIRECTION direction, double* x, double* y, std::size_t count) const {
        constexpr std::size_t step = sizeof(double);
        proj_errno_reset(transformation_);
        proj_trans_generic(transformation_, direction, x, step, count, y, step, count, nullptr, 0, 0, nullptr, 0, 0);
    }

private:
    PJ_CONTEXT* context_;
    PJ* transformation_ = nullptr;
};

std::string definition_at(double lon_deg, double lat_deg) {
    return fmt::format("+proj=tmerc +lat_0={} +lon_0={} +k=1 +x_0=0 +y_0=0 +ellps=WGS84 +units=m +no_defs",
                       format_shortest(lat_deg), format_shortest(lon_deg));
}

} // namespace

struct Frame::Projection {
    explicit Projection(std::string text) : definition(std::move(text)) { give_back(borrow()); }

    [[nodiscard]] std::unique_ptr<Transformation> borrow() const {
        {
            const std::lock_guard guard(mutex);
            if (!idle.empty()) {
                auto transformation = std::move(idle.back());
                idle.pop_back();
                return transformation;
            }
        }
        return std::make_unique<Transformation>(definition);
    }
    void give_back(std::unique_ptr<Transformation> transformation) const {
        const std::lock_guard guard(mutex);
        idle.push_back(std::move(transformation));
    }
    void run(PJ_DIRECTION direction, double* x, double* y, std::size_t count) const {
        auto transformation = borrow();
        transformation->run(direction, x, y, count);
        give_back(std::move(transformation));
    }

    std::string definition;
    mutable std::mutex mutex;
    mutable std::vector<std::unique_ptr<Transformation>> idle;
};

Frame::Frame() = default;

Frame::Frame(double centre_lon_deg, double centre_lat_deg)
    : projection_(std::make_shared<const Projection>(definition_at(centre_lon_deg, centre_lat_deg))) {}

Point Frame::to_metres(Point lon_lat_deg) const {
    if (is_local()) return lon_lat_deg;
    Point point{lon_lat_deg.x * radians_per_degree, lon_lat_deg.y * radians_per_degree};
    projection_->run(PJ_FWD, &point.x, &point.y, 1);
    return point;
}

Point Frame::to_degrees(Point metres) const {
    if (is_local()) return metres;
    projection_->run(PJ_INV, &metres.x, &metres.y, 1);
    return {metres.x / radians_per_degree, metres.y / radians_per_degree};
}

void Frame::to_metres(std::vector<double>& x, std::vector<double>& y) const {
    if (is_local() || x.empty()) return;
    for (std::size_t i = 0; i < x.size(); ++i) {
        x[i] *= radians_per_degree;
        y[i] *= radians_per_degree;
    }
    projection_->run(PJ_FWD, x.data(), y.data(), x.size());
}

bool Frame::is_local() const { return projection_ == nullptr; }

std::string Frame::definition() const { return is_local() ? "local metres" : projection_->definition; }

} // namespace quartercut
