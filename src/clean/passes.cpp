// SPDX-License-Identifier: MIT
// One walk along the records of each machine. A pass knows whether the machine came empty into the crop and left it:
// a new load in mid-pass starts a new pass but no filling.
#include "clean/passes.hpp"

#include "clean/directions.hpp"

namespace quartercut::cleaning {
namespace {

constexpr double turn_cosine = 0.5; // 60 degrees
constexpr double turn_over_m = 10.0;

class PassFinder {
public:
    PassFinder(FieldWork& work, const MachineBlock& block) : work_(work), block_(block) {}

    void run() {
        for (std::size_t i = block_.begin; i < block_.end; ++i)
            visit(i);
        close(true);
    }

private:
    void visit(std::size_t i) {
        const Records& r = work_.records();
        if (work_.copy[i]) return;
        if (r.header_up[i]) return close(true);
        if (work_.jump[i]) return;
        if (open_ && left_the_crop(i)) close(true);
        if (open_ && r.load[i] != r.load[last_]) {
            close(false);
            open(i, false);
        } else if (!open_) {
            open(i, true);
        }
        add(i);
    }

    [[nodiscard]] bool left_the_crop(std::size_t i) {
        if (!follows(work_, block_, last_, i)) return true;
        const Records& r = work_.records();
        while (anchor_ < last_ && std::hypot(r.x_m[i] - r.x_m[anchor_], r.y_m[i] - r.y_m[anchor_]) > turn_over_m)
            ++anchor_;
        const double cosine = work_.dir_x[i] * work_.dir_x[anchor_] + work_.dir_y[i] * work_.dir_y[anchor_];
        const bool known = work_.dir_x[i] != 0.0 || work_.dir_y[i] != 0.0;
        const bool anchor_known = work_.dir_x[anchor_] != 0.0 || work_.dir_y[anchor_] != 0.0;
        return known && anchor_known && cosine < turn_cosine;
    }

    void open(std::size_t i, bool fills) {
        open_ = true;
        begin_ = anchor_ = i;
        fills_ = fills;
    }

    void add(std::size_t i) {
        work_.out->pass[i] = static_cast<std::int32_t>(work_.ranges.size());
        last_ = i;
    }

    void close(bool empties) {
        if (!open_) return;
        open_ = false;
        const PassRange range{begin_, last_ + 1, work_.clock_s[begin_] - work_.step_s[begin_], work_.clock_s[last_],
                              fills_, empties};
        work_.ranges.push_back(range);
        work_.out->passes.push_back(describe(range));
    }

    [[nodiscard]] Pass describe(const PassRange& range) const {
        const Records& r = work_.records();
        Pass pass;
        pass.machine = block_.machine;
        double east = 0.0, north = 0.0;
        std::vector<std::pair<int, std::size_t>> counts;
        std::size_t before = range.begin;
        for (std::size_t i = range.begin; i < range.end; ++i) {
            if (work_.out->pass[i] != static_cast<std::int32_t>(work_.ranges.size()) - 1) continue;
            east += work_.dir_x[i];
            north += work_.dir_y[i];
            pass.length_m += std::hypot(r.x_m[i] - r.x_m[before], r.y_m[i] - r.y_m[before]);
            before = i;
            count(counts, r.method[i]);
        }
        if (r.distance_m[range.begin] > 0.0) pass.length_m += r.distance_m[range.begin];
        pass.heading_deg = std::atan2(east, north) * degrees_per_radian;
        if (pass.heading_deg < 0.0) pass.heading_deg += 360.0;
        std::size_t most = 0;
        for (const auto& [method, records] : counts)
            if (records > most) most = records, pass.method = method;
        pass.start_s = std::isfinite(r.time_s[range.begin]) ? range.start_s : nan_value;
        return pass;
    }

    static void count(std::vector<std::pair<int, std::size_t>>& counts, int method) {
        for (auto& [known, records] : counts) {
            if (known != method) continue;
            ++records;
            return;
        }
        counts.emplace_back(method, 1);
    }

    FieldWork& work_;
    const MachineBlock& block_;
    bool open_ = false, fills_ = true;
    std::size_t begin_ = 0, last_ = 0, anchor_ = 0;
};

} // namespace

void find_passes(FieldWork& work) {
    work.out->pass.assign(work.size(), -1);
    work.out->passes.clear();
    work.ranges.clear();
    for (const MachineBlock& block : work.blocks)
        PassFinder(work, block).run();
}

} // namespace quartercut::cleaning
