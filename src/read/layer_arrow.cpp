// SPDX-License-Identifier: MIT
// Walking through the batches of an Arrow stream column by column. The layout of arrays is that of the Arrow C data
// interface: buffer 0 holds one bit a row (0: null), the others values or offsets and bytes.
#include "read/layer_arrow.hpp"

#include "base/text.hpp"

#include <array>
#include <cstring>
#include <fmt/format.h>
#include <limits>
#include <ogr_recordbatch.h>
#include <optional>

namespace quartercut::reading {
namespace {

constexpr double nothing = std::numeric_limits<double>::quiet_NaN();

struct Stream {
    ArrowArrayStream raw{};
    ~Stream() {
        if (raw.release != nullptr) raw.release(&raw);
    }
};
struct Schema {
    ArrowSchema raw{};
    ~Schema() {
        if (raw.release != nullptr) raw.release(&raw);
    }
};
struct Batch {
    ArrowArray raw{};
    ~Batch() {
        if (raw.release != nullptr) raw.release(&raw);
    }
};

/// Rows of one column of a batch.
class Cells {
public:
    Cells(const ArrowArray& column, std::int64_t parent_offset)
        : column_(column), offset_(static_cast<std::size_t>(column.offset + parent_offset)) {}
    [[nodiscard]] bool is_null(std::size_t row) const {
        const auto* bits = static_cast<const std::uint8_t*>(column_.buffers[0]);
        const std::size_t at = row + offset_;
        return bits != nullptr && ((static_cast<unsigned>(bits[at / 8]) >> (at % 8)) & 1U) == 0;
    }
    template <class T>
    [[nodiscard]] T value(std::size_t row) const {
        return static_cast<const T*>(column_.buffers[1])[row + offset_];
    }
    [[nodiscard]] bool bit(std::size_t row) const {
        const std::size_t at = row + offset_;
        return ((static_cast<unsigned>(static_cast<const std::uint8_t*>(column_.buffers[1])[at / 8]) >> (at % 8)) &
                1U) != 0;
    }
    /// Of a text or binary column.
    [[nodiscard]] std::string_view bytes(std::size_t row) const {
        const auto* offsets = static_cast<const std::int32_t*>(column_.buffers[1]) + row + offset_;
        return {static_cast<const char*>(column_.buffers[2]) + offsets[0],
                static_cast<std::size_t>(offsets[1] - offsets[0])};
    }

private:
    const ArrowArray& column_;
    std::size_t offset_;
};

/// Which child of the batch feeds a wanted column, and how its values lie there.
struct Feed {
    std::size_t child = 0;
    char kind = '?'; ///< Arrow's format letter; 't' for moments in milliseconds
};

std::optional<Feed> feed_for(const ArrowSchema& schema, const std::string& name) {
    for (std::int64_t i = 0; i < schema.n_children; ++i) {
        if (name != schema.children[i]->name) continue;
        const std::string_view format = schema.children[i]->format;
        if (format.starts_with("tsm:")) return Feed{static_cast<std::size_t>(i), 't'};
        if (format.size() == 1 && std::string_view("gfilsbu").find(format[0]) != std::string_view::npos)
            return Feed{static_cast<std::size_t>(i), format[0]};
    }
    return std::nullopt;
}

std::optional<std::size_t> geometry_child(const ArrowSchema& schema) {
    for (std::int64_t i = schema.n_children - 1; i >= 0; --i)
        if (std::string_view(schema.children[i]->format) == "z") return static_cast<std::size_t>(i);
    return std::nullopt;
}

double number_at(const Cells& cells, char kind, std::size_t row) {
    switch (kind) {
    case 'g':
        return cells.value<double>(row);
    case 'f':
        return static_cast<double>(cells.value<float>(row));
    case 'i':
        return cells.value<std::int32_t>(row);
    case 'l':
        return static_cast<double>(cells.value<std::int64_t>(row));
    case 's':
        return cells.value<std::int16_t>(row);
    case 'b':
        return cells.bit(row) ? 1.0 : 0.0;
    default:
        return nothing;
    }
}

void fill_column(const Cells& cells, const Feed& feed, const Wanted& wanted, std::size_t rows, ColumnFiller& filler) {
    for (std::size_t row = 0; row < rows; ++row) {
        if (cells.is_null(row))
            filler.add_missing();
        else if (feed.kind == 'u')
            filler.add(cells.bytes(row));
        else if (feed.kind == 't')
            filler.add_moment(static_cast<double>(cells.value<std::int64_t>(row)) / 1000.0, true);
        else if (wanted.how == How::number)
            filler.add_number(number_at(cells, feed.kind, row));
        else
            filler.add(format_shortest(number_at(cells, feed.kind, row)));
    }
}

/// A plain point in well-known binary of this machine's byte order: x and y at bytes 5 and 13.
bool is_plain_point(std::string_view wkb) {
    if (wkb.size() < 21 || wkb[0] != 1) return false;
    std::uint32_t type = 0;
    std::memcpy(&type, wkb.data() + 1, 4);
    return (type & 0x0FFFFFFFU) % 1000U == 1U;
}

void fill_places(const Cells& cells, std::size_t rows, Loaded& out, const OddGeometry& odd_geometry) {
    for (std::size_t row = 0; row < rows; ++row) {
        ++out.rows;
        if (cells.is_null(row)) {
            out.x.push_back(nothing);
            out.y.push_back(nothing);
            continue;
        }
        const std::string_view wkb = cells.bytes(row);
        if (is_plain_point(wkb)) {
            double x = 0.0, y = 0.0;
            std::memcpy(&x, wkb.data() + 5, 8);
            std::memcpy(&y, wkb.data() + 13, 8);
            out.x.push_back(x);
            out.y.push_back(y);
            continue;
        }
        OGRGeometry* geometry = nullptr;
        if (OGRGeometryFactory::createFromWkb(wkb.data(), nullptr, &geometry, wkb.size()) != OGRERR_NONE)
            geometry = nullptr;
        const std::unique_ptr<OGRGeometry> owned(geometry != nullptr ? geometry : new OGRPoint());
        odd_geometry(*owned);
    }
}

} // namespace

bool load_by_arrow(const OpenLayer& open, const std::vector<Wanted>& wanted, const std::vector<SourceColumn>& columns,
                   Loaded& out, const OddGeometry& odd_geometry) {
    static const std::array<const char*, 2> options{"INCLUDE_FID=NO", nullptr};
    Stream stream;
    Schema schema;
    if (!open.layer->GetArrowStream(&stream.raw, const_cast<char**>(options.data())) || // NOLINT
        stream.raw.get_schema(&stream.raw, &schema.raw) != 0)
        return false;
    std::vector<Feed> feeds;
    for (const Wanted& column : wanted) {
        const auto feed = feed_for(schema.raw, columns[column.column].name);
        if (!feed || (feed->kind == 't') != (column.how == How::moment && columns[column.column].is_time)) return false;
        feeds.push_back(*feed);
    }
    const auto place = geometry_child(schema.raw);
    if (!place) return false;
    std::vector<ColumnFiller> fillers;
    for (std::size_t i = 0; i < wanted.size(); ++i)
        fillers.emplace_back(out.columns[i], wanted[i], false);
    while (true) {
        Batch batch;
        if (stream.raw.get_next(&stream.raw, &batch.raw) != 0)
            throw InputError(fmt::format(
                "{}: the file is damaged and cannot be read to its end. Copy or export it afresh.", open.shown));
        if (batch.raw.release == nullptr) return true; // the end
        const auto rows = static_cast<std::size_t>(batch.raw.length);
        fill_places(Cells(*batch.raw.children[*place], batch.raw.offset), rows, out, odd_geometry);
        for (std::size_t i = 0; i < wanted.size(); ++i)
            fill_column(Cells(*batch.raw.children[feeds[i].child], batch.raw.offset), feeds[i], wanted[i], rows,
                        fillers[i]);
    }
}

} // namespace quartercut::reading
