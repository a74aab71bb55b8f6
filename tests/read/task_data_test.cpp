// SPDX-License-Identifier: MIT
// ISO 11783-10 task data, written here byte by byte.
#include "season_folder.hpp"

#include "quartercut/error.hpp"
#include "read/time_log.hpp"

#include <cmath>
#include <gmock/gmock.h>

namespace quartercut::read_test {
namespace {

using testing::Contains;
using testing::HasSubstr;

/// Little-endian bytes, one number after the other.
class Log {
public:
    Log& u8(unsigned v) { return put(v, 1); }
    Log& u16(unsigned v) { return put(v, 2); }
    Log& u32(unsigned v) { return put(v, 4); }
    Log& i32(int v) { return put(static_cast<unsigned>(v), 4); }
    [[nodiscard]] const std::string& bytes() const { return bytes_; }

private:
    Log& put(unsigned v, int count) {
        for (int i = 0; i < count; ++i)
            bytes_ += static_cast<char>((v >> (8 * i)) & 0xFFU);
        return *this;
    }
    std::string bytes_;
};

// 2025-09-04 is day 16683 after 1980-01-01: 45 years of 365 days, 12 leap days 1980..2024, 31+28+31+30+31+30+31+31+3.
constexpr unsigned day_2025_09_04 = 45 * 365 + 12 + 246;
static_assert(day_2025_09_04 == 16683);

const std::string main_file = R"(<?xml version="1.0" encoding="UTF-8"?>
<ISO11783_TaskData VersionMajor="3" VersionMinor="3" DataTransferOrigin="1">
  <DVC A="DVC-1" B="red one"><DET A="DET-1" B="1" C="1" D="combine" E="0" F="0"/></DVC>
  <TSK A="TSK1" B="harvest" G="4"><TLG A="TLG00001" B="0"/></TSK>
</ISO11783_TaskData>
)";
// 0057 mass per time yield, 0063 crop moisture, 0043 actual working width, 008D actual work state.
const std::string header = R"(<TIM A="" D="4"><PTN A="" B="" D=""/>
  <DLV A="0057" B="" C="DET-1"/><DLV A="0063" B="" C="DET-1"/>
  <DLV A="0043" B="" C="DET-1"/><DLV A="008D" B="" C="DET-1"/>
</TIM>)";

/// Forty seconds of the season folder's records: 10 m wide, 2 m/s, 5 kg/s, 12 %. Width and state are logged once.
std::string forty_records() {
    Log log;
    for (unsigned i = 0; i < 40; ++i) {
        log.u32(55800000U + 1000U * i).u16(day_2025_09_04);                     // 15:30:00 and on
        log.i32(520050000 + static_cast<int>(180U * i)).i32(-1119950000).u8(4); // 2 m north each second
        log.u8(i == 0 ? 4U : 2U).u8(0).i32(5000000).u8(1).i32(120000);          // mg/s, ppm
        if (i == 0) log.u8(2).i32(10000).u8(3).i32(1);                          // mm, at work
    }
    return log.bytes();
}

void write_task_data(const SeasonFolder& folder, const std::string& records) {
    folder.write("TASKDATA.XML", main_file);
    folder.write("tlg00001.xml", header); // cards know no case
    folder.write("TLG00001.BIN", records);
}

Raw read_task_data(SeasonFolder& folder) {
    folder.points = "files = [\"TASKDATA.XML\"]\n";
    return folder.read();
}

TEST(TaskData, IsReadAsAnyOtherRecords) {
    SeasonFolder folder;
    write_task_data(folder, forty_records());
    const Raw raw = read_task_data(folder);
    const RawRecords& records = raw.records.at(0);
    ASSERT_EQ(records.size(), 40U);
    EXPECT_NEAR(records.lat_deg[0], 52.005, 1e-12);
    EXPECT_NEAR(records.lon_deg[0], -111.995, 1e-12);
    EXPECT_DOUBLE_EQ(records.numbers.at(Meaning::flow).values[7], 5.0);
    EXPECT_EQ(records.numbers.at(Meaning::flow).unit, "kg/s");
    EXPECT_DOUBLE_EQ(records.numbers.at(Meaning::moisture).values[7], 12.0);
    EXPECT_DOUBLE_EQ(records.numbers.at(Meaning::width).values[39], 10.0) << "logged once, holds for a minute";
    EXPECT_EQ(records.header_up.at(3), 0);
    EXPECT_EQ(records.texts.at(Meaning::machine).words.at(0), "red one");
    EXPECT_DOUBLE_EQ(records.time_s[0], 1756999800.0); // date -u -d 2025-09-04T15:30:00 +%s
    std::vector<std::string> inputs;
    for (const InputFile& input : raw.inputs)
        inputs.push_back(input.path);
    EXPECT_THAT(inputs, testing::IsSupersetOf({"TASKDATA.XML", "tlg00001.xml", "TLG00001.BIN"}));
}

TEST(TaskData, IsRecognisedInAFolder) {
    const SeasonFolder folder;
    write_task_data(folder, forty_records());
    const LayerSketch sketch = sketch_file(folder.path("TASKDATA.XML")).at(0);
    EXPECT_EQ(sketch.kind, LayerSketch::Kind::points);
    EXPECT_EQ(sketch.meanings.at(Meaning::flow).unit, "kg/s");
}

TEST(TaskData, SatellitesTimeIsUtcAndPlacelessRecordsHaveNone) {
    const reading::XmlElement utc = reading::parse_xml(
        R"(<TIM A="" D="4"><PTN A="" B="" D="" H="" I=""/><DLV A="0057" B="" C="DET-1"/></TIM>)", "header");
    Log log;
    log.u32(0).u16(1).i32(520050000).i32(-1119950000).u8(4).u32(55800000U).u16(day_2025_09_04).u8(0);
    log.u32(0).u16(1).i32(520050000).i32(-1119950000).u8(0).u32(55801000U).u16(day_2025_09_04).u8(0); // no fix
    log.u32(0).u16(1).i32(0x7FFFFFFF).i32(0x7FFFFFFF).u8(4).u32(55801000U).u16(day_2025_09_04).u8(0);
    const reading::TimeLog read = reading::read_time_log(utc, log.bytes(), "log");
    EXPECT_TRUE(read.times_are_utc);
    EXPECT_DOUBLE_EQ(read.time_s.at(0), 1756999800.0);
    EXPECT_FALSE(std::isnan(read.lon_deg.at(0)));
    EXPECT_TRUE(std::isnan(read.lon_deg.at(1)) && std::isnan(read.lat_deg.at(2)));
    EXPECT_FALSE(read.logged.at(0).at(0).has_value());
}

TEST(TaskData, CutOffWithinARecordLosesThatRecordWithAWarning) {
    SeasonFolder folder;
    const std::string bytes = forty_records();
    write_task_data(folder, bytes.substr(0, bytes.size() - 3));
    const Raw raw = read_task_data(folder);
    EXPECT_EQ(raw.records.at(0).size(), 39U);
    EXPECT_THAT(codes(raw.issues), Contains("log-cut-off"));
}

TEST(TaskData, FilesThatBelongToItMayStandApart) {
    SeasonFolder folder;
    write_task_data(folder, forty_records());
    folder.write("TASKDATA.XML", R"(<ISO11783_TaskData VersionMajor="4"><XFR A="DVC00001" B="1"/>
        <TSK A="TSK1" G="4"><TLG A="TLG00001"/></TSK></ISO11783_TaskData>)");
    folder.write("DVC00001.XML", R"(<XFC><DVC A="DVC-1" B="green one"><DET A="DET-1"/></DVC></XFC>)");
    EXPECT_EQ(read_task_data(folder).records.at(0).texts.at(Meaning::machine).words.at(0), "green one");
}

struct BadTaskData {
    std::string name, file, content;
    std::vector<std::string> message;
};

TEST(BadTaskData, IsRefusedWithOneClearMessage) {
    std::string bomb = "<?xml version=\"1.0\"?><!DOCTYPE a [<!ENTITY b \"bbbbbbbbbb\"><!ENTITY c \"&b;&b;&b;&b;\">]>";
    std::string deep;
    for (int i = 0; i < 200; ++i)
        deep += "<TSK>";
    Log wrong_number;
    wrong_number.u32(0).u16(16683).i32(520050000).i32(-1119950000).u8(4).u8(1).u8(9).i32(1);
    const std::vector<BadTaskData> cases{
        {"EntityExpansion",
         "TASKDATA.XML",
         bomb + "<ISO11783_TaskData>&c;</ISO11783_TaskData>",
         {"TASKDATA.XML", "refused", "document type"}},
        {"Deep", "TASKDATA.XML", "<ISO11783_TaskData>" + deep, {"TASKDATA.XML", "nested deeper"}},
        {"NotXml", "TASKDATA.XML", "<ISO11783_TaskData>\n<TSK", {"TASKDATA.XML, line 2", "not XML"}},
        {"OtherXml", "TASKDATA.XML", "<recipe/>", {"no task data", "'recipe'"}},
        {"NoLog", "TASKDATA.XML", "<ISO11783_TaskData/>", {"holds no record of a time log"}},
        {"LogMissing",
         "TASKDATA.XML",
         "<ISO11783_TaskData><TSK><TLG A=\"TLG00007\"/></TSK></ISO11783_TaskData>",
         {"'TLG00007.XML'", "missing", "whole folder"}},
        {"PathOutside",
         "TASKDATA.XML",
         "<ISO11783_TaskData><TSK><TLG A=\"../../etc/TLG1\"/></TSK></ISO11783_TaskData>",
         {"missing"}},
        {"NoPosition", "tlg00001.xml", "<TIM A=\"\" D=\"4\"/>", {"no position"}},
        {"NoIdentifier",
         "tlg00001.xml",
         "<TIM A=\"\"><PTN A=\"\" B=\"\"/><DLV A=\"spam\" B=\"\"/></TIM>",
         {"'spam' is no data dictionary identifier"}},
        {"TwoGrains",
         "tlg00001.xml",
         "<TIM A=\"\"><PTN A=\"\" B=\"\" D=\"\"/><DLV A=\"0057\" B=\"\" C=\"DET-1\"/><DLV A=\"0057\" B=\"\" "
         "C=\"DET-2\"/>"
         "<DLV A=\"0043\" B=\"\"/><DLV A=\"0044\" B=\"\"/></TIM>",
         {"'DET-1' and 'DET-2'", "identifier 87"}},
        {"ValueNotInHeader", "TLG00001.BIN", wrong_number.bytes(), {"record 1", "value number 9", "names 4"}},
        {"Empty", "TLG00001.BIN", "", {"holds no record"}},
    };
    for (const BadTaskData& bad : cases) {
        SCOPED_TRACE(bad.name);
        SeasonFolder folder;
        write_task_data(folder, forty_records());
        folder.write(bad.file, bad.content);
        folder.points = "files = [\"TASKDATA.XML\"]\n";
        const std::string message = folder.refusal();
        for (const std::string& words : bad.message)
            EXPECT_THAT(message, HasSubstr(words));
    }
}

} // namespace
} // namespace quartercut::read_test
