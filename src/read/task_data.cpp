// SPDX-License-Identifier: MIT
// Task data -> one table of records: the logs of all tasks one after the other.
//
// A controller may log a value only when it changes. So a width and a work state hold until the next one, for a minute
// at most, and flow, yield and moisture for ten seconds; then they are not recorded (judgement).
#include "read/task_data.hpp"

#include "base/text.hpp"
#include "read/gdal_access.hpp"
#include "read/mapped_file.hpp"
#include "read/time_log.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <fmt/format.h>
#include <fstream>
#include <limits>

namespace quartercut::reading {
namespace fs = std::filesystem;
namespace {

constexpr double nothing = std::numeric_limits<double>::quiet_NaN();

/// What becomes a column of the table. Names hold the trade's words and the unit, as any other file's would.
struct KnownDdi {
    unsigned ddi;
    const char* column;
    double factor; ///< to the unit in the name
    double hold_s; ///< how long a value stands
};
constexpr std::array<KnownDdi, 5> known_ddis{{{87, "Mass flow (kg/s)", 1e-6, 10.0},
                                              {84, "Yield (kg/m2)", 1e-6, 10.0},
                                              {99, "Crop moisture (%)", 1e-4, 10.0},
                                              {67, "Working width (m)", 1e-3, 60.0},
                                              {141, "Header down", 1.0, 60.0}}};
constexpr unsigned condensed_work_state = 161;

struct Table {
    std::vector<double> lon_deg, lat_deg, time_s;
    std::array<std::vector<double>, known_ddis.size()> columns;
    std::vector<std::string> machine; ///< one a record
    std::size_t utc_logs = 0, local_logs = 0, cut_off = 0;
    std::string cut_off_first;
};

/// The work state in the condensed form: two bits a section, 1 is at work.
double condensed_state(std::int32_t value) {
    const auto bits = static_cast<std::uint32_t>(value);
    bool known = false;
    for (unsigned section = 0; section < 16; ++section) {
        const std::uint32_t state = (bits >> (2U * section)) & 3U;
        if (state == 1U) return 1.0;
        known = known || state == 0U;
    }
    return known ? 0.0 : nothing;
}

std::optional<std::size_t> column_of(unsigned ddi) {
    if (ddi == condensed_work_state) ddi = 141;
    for (std::size_t i = 0; i < known_ddis.size(); ++i)
        if (known_ddis[i].ddi == ddi) return i;
    return std::nullopt;
}

/// Which of the log's values feeds each column. \throws InputError  two elements log the same mass
std::array<std::optional<std::size_t>, known_ddis.size()> feeds(const TimeLog& log, const std::string& shown) {
    std::array<std::optional<std::size_t>, known_ddis.size()> out;
    for (std::size_t v = 0; v < log.values.size(); ++v) {
        const auto column = column_of(log.values[v].ddi);
        if (!column) continue;
        const bool is_mass = *column <= 1;
        if (out[*column] && is_mass && log.values[*out[*column]].element != log.values[v].element)
            throw InputError(fmt::format("{}: the elements '{}' and '{}' both log identifier {}; which of them is the "
                                         "grain cannot be told.",
                                         shown, log.values[*out[*column]].element, log.values[v].element,
                                         log.values[v].ddi));
        if (!out[*column]) out[*column] = v;
    }
    return out;
}

void append_log(Table& table, const TimeLog& log, const std::string& machine, const std::string& shown) {
    const auto from = feeds(log, shown);
    table.lon_deg.insert(table.lon_deg.end(), log.lon_deg.begin(), log.lon_deg.end());
    table.lat_deg.insert(table.lat_deg.end(), log.lat_deg.begin(), log.lat_deg.end());
    table.time_s.insert(table.time_s.end(), log.time_s.begin(), log.time_s.end());
    table.machine.insert(table.machine.end(), log.size(), machine);
    for (std::size_t c = 0; c < known_ddis.size(); ++c) {
        double last = nothing, last_s = nothing;
        for (std::size_t i = 0; i < log.size(); ++i) {
            if (from[c] && log.logged[*from[c]][i]) {
                const std::int32_t raw = *log.logged[*from[c]][i];
                const bool condensed = log.values[*from[c]].ddi == condensed_work_state;
                last = condensed ? condensed_state(raw) : static_cast<double>(raw) * known_ddis[c].factor;
                last_s = log.time_s[i];
            }
            const bool stands = !(log.time_s[i] - last_s > known_ddis[c].hold_s);
            table.columns[c].push_back(stands ? last : nothing);
        }
    }
    ++(log.times_are_utc ? table.utc_logs : table.local_logs);
    if (log.cut_off && table.cut_off++ == 0) table.cut_off_first = shown;
}

class TaskRecords final : public RecordSource {
public:
    TaskRecords(Table table, std::string shown, Issues issues, std::vector<FoundFile> more)
        : table_(std::move(table)), issues_(std::move(issues)), more_(std::move(more)) {
        shown_ = std::move(shown);
        has_geometry_ = true;
        columns_.push_back({"Time", "", true, {}, ""});
        columns_.push_back({"Machine", "", false, {}, ""});
        for (std::size_t c = 0; c < known_ddis.size(); ++c)
            columns_.push_back({known_ddis[c].column, "", false, sample_of(table_.columns[c]), ""});
        columns_[0].sample = sample_of(table_.time_s);
        for (const std::string& machine : table_.machine)
            if (!machine.empty() && columns_[1].sample.size() < most_samples) columns_[1].sample.push_back(machine);
    }

    void tell_crs(CrsFacts& facts) const override {
        facts.by_definition = true; // the standard's positions are on WGS 84
        facts.named_lon_lat = true;
    }
    [[nodiscard]] Issues issues() const override { return issues_; }
    [[nodiscard]] std::vector<FoundFile> more_files() const override { return more_; }

    [[nodiscard]] Loaded load(const std::vector<Wanted>& wanted) override {
        Loaded out;
        out.rows = table_.time_s.size();
        out.x = table_.lon_deg;
        out.y = table_.lat_deg;
        out.columns.resize(wanted.size());
        for (std::size_t i = 0; i < wanted.size(); ++i)
            fill(wanted[i], out.columns[i]);
        return out;
    }

private:
    static constexpr std::size_t most_samples = 200;

    static std::vector<std::string> sample_of(const std::vector<double>& values) {
        std::vector<std::string> out;
        for (const double value : values) {
            if (out.size() == most_samples) break;
            if (!std::isnan(value)) out.push_back(format_shortest(value));
        }
        return out;
    }

    void fill(const Wanted& wanted, LoadedColumn& column) const {
        ColumnFiller filler(column, wanted, false);
        const bool utc = table_.local_logs == 0;
        for (std::size_t i = 0; i < table_.time_s.size(); ++i) {
            if (wanted.column == 1)
                filler.add(table_.machine[i]);
            else if (wanted.column == 0 && wanted.how == How::moment && !std::isnan(table_.time_s[i]))
                filler.add_moment(table_.time_s[i], utc);
            else if (wanted.column == 0)
                filler.add_missing();
            else if (const double value = table_.columns[wanted.column - 2][i]; std::isnan(value))
                filler.add_missing();
            else if (wanted.how == How::text)
                filler.add(format_shortest(value));
            else
                filler.add_number(value);
        }
    }

    Table table_;
    Issues issues_;
    std::vector<FoundFile> more_;
};

/// A file of the data set, whatever the case of its letters: cards are written by machines that know no case.
std::optional<FoundFile> beside(const FoundFile& main, const std::string& name) {
    // A name is a name, never a path to somewhere else.
    if (name.empty() || name.find_first_of("/\\") != std::string::npos) return std::nullopt;
    std::error_code broken;
    const fs::path folder = main.path.parent_path().empty() ? fs::path(".") : main.path.parent_path();
    for (fs::directory_iterator it(folder, broken), end; !broken && it != end; it.increment(broken))
        if (lower(it->path().filename().string()) == lower(name) && it->is_regular_file())
            return FoundFile{(fs::path(main.shown).parent_path() / it->path().filename()).generic_string(), it->path()};
    return std::nullopt;
}

XmlElement xml_of(const FoundFile& file) { return parse_xml(MappedFile(file.path, file.shown).bytes(), file.shown); }

class Reader {
public:
    explicit Reader(const FoundFile& main) : main_(main), root_(xml_of(main)) {}

    std::unique_ptr<RecordSource> records() {
        if (root_.name != "ISO11783_TaskData")
            throw InputError(fmt::format("{}: this is no task data: its first element is '{}'.", main_.shown,
                                         shortened(root_.name)));
        take_in_further_files();
        for (const XmlElement& child : root_.children)
            if (child.name == "DVC") name_elements(child);
        for (const XmlElement& child : root_.children)
            if (child.name == "TSK") read_task(child);
        if (table_.time_s.empty())
            throw InputError(
                fmt::format("{}: the task data holds no record of a time log (TLG under TSK).", main_.shown));
        if (table_.utc_logs > 0 && table_.local_logs > 0)
            throw InputError(
                fmt::format("{}: some logs state the satellites' time and others only the machine's clock; "
                            "export them apart.",
                            main_.shown));
        if (table_.cut_off > 0)
            issues_.push_back(
                {"log-cut-off", Severity::warning, main_.shown,
                 fmt::format("{} within a record ({} first); that record was left out.",
                             table_.cut_off == 1 ? "1 log ends" : fmt::format("{} logs end", table_.cut_off),
                             table_.cut_off_first)});
        return std::make_unique<TaskRecords>(std::move(table_), main_.shown, std::move(issues_), std::move(more_));
    }

private:
    void take_in_further_files() {
        const std::vector<XmlElement> listed = root_.children;
        for (const XmlElement& reference : listed) {
            if (reference.name != "XFR") continue;
            const auto file = beside(main_, reference.at("A") + ".XML");
            if (!file)
                throw InputError(
                    fmt::format("{}: the file '{}' that belongs to it is missing. Copy the whole folder of "
                                "the task data.",
                                main_.shown, shortened(reference.at("A")) + ".XML"));
            more_.push_back(*file);
            XmlElement further = xml_of(*file);
            for (XmlElement& child : further.children)
                if (child.name != "XFR") root_.children.push_back(std::move(child));
        }
    }

    void name_elements(const XmlElement& device) {
        const std::string name = device.at("B").empty() ? device.at("A") : device.at("B");
        for (const XmlElement& child : device.children)
            if (child.name == "DET") machine_of_[child.at("A")] = name;
    }

    void read_task(const XmlElement& task) {
        for (const XmlElement& child : task.children) {
            if (child.name != "TLG") continue;
            const std::string& name = child.at("A");
            const auto header = beside(main_, name + ".XML"), records = beside(main_, name + ".BIN");
            if (!header || !records)
                throw InputError(
                    fmt::format("{}: the file '{}' that belongs to it is missing. Copy the whole folder of "
                                "the task data.",
                                main_.shown, shortened(name) + (header ? ".BIN" : ".XML")));
            more_.push_back(*header);
            more_.push_back(*records);
            const MappedFile bytes(records->path, records->shown);
            const TimeLog log = read_time_log(xml_of(*header), bytes.bytes(), records->shown);
            append_log(table_, log, machine_name(log), records->shown);
        }
    }

    [[nodiscard]] std::string machine_name(const TimeLog& log) const {
        for (const LoggedValue& value : log.values)
            if (const auto found = machine_of_.find(value.element); found != machine_of_.end()) return found->second;
        return {};
    }

    const FoundFile& main_;
    XmlElement root_;
    std::map<std::string, std::string> machine_of_; ///< device element -> device
    Table table_;
    Issues issues_;
    std::vector<FoundFile> more_;
};

} // namespace

bool is_task_data(const FoundFile& file) {
    if (ending(file.path) != ".xml") return false;
    std::ifstream stream(file.path, std::ios::binary);
    std::string start(4096, '\0');
    stream.read(start.data(), static_cast<std::streamsize>(start.size()));
    return lower(file.path.filename().string()) == "taskdata.xml" ||
           start.find("ISO11783_TaskData") != std::string::npos;
}

std::unique_ptr<RecordSource> task_records(const FoundFile& file) { return Reader(file).records(); }

std::unique_ptr<RecordSource> task_records(std::string_view header, std::string_view records) {
    Table table;
    append_log(table, read_time_log(parse_xml(header, "header"), records, "log"), "machine", "log");
    if (table.time_s.empty()) throw InputError("log: no record.");
    return std::make_unique<TaskRecords>(std::move(table), "log", Issues{}, std::vector<FoundFile>{});
}

} // namespace quartercut::reading
