// SPDX-License-Identifier: MIT
// Reading the records of a time log, never past the end of the bytes.
#include "read/time_log.hpp"

#include "base/text.hpp"
#include "quartercut/error.hpp"

#include <array>
#include <charconv>
#include <cmath>
#include <fmt/format.h>
#include <limits>

namespace quartercut::reading {
namespace {

constexpr double nothing = std::numeric_limits<double>::quiet_NaN();
constexpr double day_s = 86400.0;
constexpr double first_day_s = 315532800.0; // 1980-01-01T00:00:00Z
constexpr std::size_t most_values = 255;    // a record numbers them with one byte

/// Little-endian numbers one after the other; `ok` turns false at the end of the bytes.
class Bytes {
public:
    explicit Bytes(std::string_view bytes) : bytes_(bytes) {}
    [[nodiscard]] bool done() const { return at_ >= bytes_.size(); }
    [[nodiscard]] bool ok() const { return ok_; }
    std::uint32_t take(std::size_t count) {
        if (bytes_.size() - at_ < count) {
            at_ = bytes_.size();
            ok_ = false;
            return 0;
        }
        std::uint32_t value = 0;
        for (std::size_t i = 0; i < count; ++i)
            value |= static_cast<std::uint32_t>(static_cast<unsigned char>(bytes_[at_ + i])) << (8U * i);
        at_ += count;
        return value;
    }
    std::int32_t take_signed() { return static_cast<std::int32_t>(take(4)); }

private:
    std::string_view bytes_;
    std::size_t at_ = 0;
    bool ok_ = true;
};

/// A field of the position: in the records, in the header for all of them, or absent.
struct PositionField {
    bool in_records = false;
    std::optional<double> constant;
};

PositionField position_field(const XmlElement& position, const char* attribute) {
    if (!position.has(attribute)) return {};
    if (position.at(attribute).empty()) return {true, std::nullopt};
    return {false, parse_number(position.at(attribute))};
}

const XmlElement* child_named(const XmlElement& parent, std::string_view name) {
    for (const XmlElement& child : parent.children)
        if (child.name == name) return &child;
    return nullptr;
}

struct Header {
    bool time_in_records = false;
    std::array<PositionField, 9> position; ///< A to I
    bool has_utc = false;
};

constexpr std::array<std::size_t, 9> position_bytes{4, 4, 4, 1, 2, 2, 1, 4, 2};
enum PositionPart : std::size_t { north, east, up, status, pdop, hdop, satellites, utc_time, utc_date };

unsigned ddi_of(const std::string& text, const std::string& shown) {
    unsigned value = 0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value, 16);
    if (error == std::errc() && end == text.data() + text.size() && value <= 0xFFFFU) return value;
    throw InputError(fmt::format("{}: '{}' is no data dictionary identifier.", shown, shortened(text)));
}

Header header_of(const XmlElement& time, TimeLog& out, const std::string& shown) {
    Header header;
    header.time_in_records = time.has("A") && time.at("A").empty();
    const XmlElement* const position = child_named(time, "PTN");
    if (!header.time_in_records || position == nullptr)
        throw InputError(fmt::format("{}: the header of the log tells no time or no position for its records.", shown));
    for (std::size_t i = 0; i < header.position.size(); ++i)
        header.position[i] = position_field(*position, std::string(1, static_cast<char>('A' + i)).c_str());
    header.has_utc = header.position[utc_time].in_records && header.position[utc_date].in_records;
    for (const XmlElement& child : time.children) {
        if (child.name != "DLV") continue;
        LoggedValue value{ddi_of(child.at("A"), shown), child.at("C"), std::nullopt};
        if (const auto constant = parse_whole_number(child.at("B"))) value.constant = *constant;
        out.values.push_back(std::move(value));
    }
    if (out.values.size() > most_values)
        throw InputError(
            fmt::format("{}: the header names {} values, and a record can number 255.", shown, out.values.size()));
    return header;
}

double moment_s(std::uint32_t milliseconds, std::uint32_t days) {
    if (milliseconds > 2U * 86400000U || days == 0xFFFFU) return nothing;
    return first_day_s + day_s * static_cast<double>(days) + static_cast<double>(milliseconds) / 1000.0;
}

/// Degrees from 1e-7 degrees; NaN for what no place is.
double degrees(double raw, double limit) {
    const double value = raw * 1e-7;
    return std::abs(value) <= limit ? value : nothing;
}

void take_position(Bytes& bytes, const Header& header, TimeLog& out, double start_s) {
    std::array<double, 9> values{};
    values.fill(nothing);
    for (std::size_t i = 0; i < values.size(); ++i) {
        if (header.position[i].constant) values[i] = *header.position[i].constant;
        if (!header.position[i].in_records) continue;
        const std::uint32_t raw = bytes.take(position_bytes[i]);
        values[i] = i <= up ? static_cast<double>(static_cast<std::int32_t>(raw)) : static_cast<double>(raw);
    }
    const bool lost = values[status] == 0.0 || (values[north] == 0.0 && values[east] == 0.0);
    out.lon_deg.push_back(lost ? nothing : degrees(values[east], 180.0));
    out.lat_deg.push_back(lost ? nothing : degrees(values[north], 90.0));
    if (std::isnan(out.lon_deg.back()) || std::isnan(out.lat_deg.back()))
        out.lon_deg.back() = out.lat_deg.back() = nothing;
    out.time_s.push_back(header.has_utc ? moment_s(static_cast<std::uint32_t>(values[utc_time]),
                                                   static_cast<std::uint32_t>(values[utc_date]))
                                        : start_s);
}

void take_values(Bytes& bytes, TimeLog& out, const std::string& shown) {
    for (std::size_t v = 0; v < out.values.size(); ++v)
        out.logged[v].push_back(out.values[v].constant);
    const std::uint32_t count = bytes.take(1);
    for (std::uint32_t i = 0; i < count && bytes.ok(); ++i) {
        const std::uint32_t which = bytes.take(1);
        const std::int32_t value = bytes.take_signed();
        if (!bytes.ok()) return;
        if (which >= out.values.size())
            throw InputError(fmt::format("{}, record {}: it holds value number {}, and the header names {}. Header and "
                                         "log do not belong together, or the log is damaged.",
                                         shown, out.size(), which, out.values.size()));
        out.logged[which].back() = value;
    }
}

void drop_last(TimeLog& out) {
    out.cut_off = true;
    out.lon_deg.pop_back();
    out.lat_deg.pop_back();
    out.time_s.pop_back();
    for (auto& column : out.logged)
        if (column.size() > out.size()) column.pop_back();
}

} // namespace

TimeLog read_time_log(const XmlElement& header_root, std::string_view bytes_of_log, const std::string& shown) {
    TimeLog out;
    const XmlElement* const time = header_root.name == "TIM" ? &header_root : child_named(header_root, "TIM");
    if (time == nullptr) throw InputError(fmt::format("{}: this is no header of a time log.", shown));
    const Header header = header_of(*time, out, shown);
    out.logged.resize(out.values.size());
    out.times_are_utc = header.has_utc;
    Bytes bytes(bytes_of_log);
    while (!bytes.done()) {
        const std::uint32_t milliseconds = bytes.take(4), days = bytes.take(2);
        take_position(bytes, header, out, moment_s(milliseconds, days));
        if (bytes.ok()) take_values(bytes, out, shown);
        if (!bytes.ok()) drop_last(out);
    }
    return out;
}

} // namespace quartercut::reading
