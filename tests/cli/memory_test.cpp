// SPDX-License-Identifier: MIT
// Large blocks beyond the budget wait in a file: what was written is read again, the program stays small, and the disk
// gets its room back. A program of its own, for it replaces the allocation of the whole process.
#include "cli/memory_store.hpp"

#include <gtest/gtest.h>

#include <chrono>
#include <cstdint>
#include <cstdio>
#include <numeric>
#include <string>
#include <thread>
#include <unistd.h>
#include <vector>

namespace quartercut::cli {
namespace {

constexpr std::size_t MiB = std::size_t{1} << 20;
constexpr std::size_t budget_bytes = 64 * MiB, block_numbers = 2 * MiB; // a block of 16 MiB
constexpr std::size_t blocks = 20;                                      // five times the budget

std::size_t resident_bytes() {
    std::FILE* file = std::fopen("/proc/self/statm", "r");
    unsigned long all = 0, resident = 0;
    const int found = std::fscanf(file, "%lu %lu", &all, &resident); // NOLINT
    std::fclose(file);
    return found == 2 ? resident * static_cast<std::size_t>(::sysconf(_SC_PAGESIZE)) : 0;
}

/// What the file in the temporary folder takes up, found as the system shows it: a file without a name.
std::size_t stored_bytes() {
    std::FILE* file = ::popen(
        ("stat -L -c %b /proc/" + std::to_string(::getpid()) + "/fd/* 2>/dev/null | sort -n | tail -1").c_str(), "r");
    unsigned long sectors = 0;
    const int found = std::fscanf(file, "%lu", &sectors); // NOLINT
    ::pclose(file);
    return found == 1 ? sectors * 512U : 0;
}

void wait_for_the_watch() { std::this_thread::sleep_for(std::chrono::milliseconds(300)); }

std::vector<std::uint64_t> counted(std::uint64_t first) {
    std::vector<std::uint64_t> numbers(block_numbers);
    std::iota(numbers.begin(), numbers.end(), first);
    return numbers;
}

TEST(MemoryStore, KeepsWhatItIsGivenAndStaysWithinTheBudget) {
    keep_memory_within(budget_bytes, {"/no such folder", testing::TempDir()});
    std::vector<std::vector<std::uint64_t>> all;
    for (std::size_t b = 0; b < blocks; ++b)
        all.push_back(counted(b * block_numbers));
    wait_for_the_watch();
    if (stored_bytes() < 3 * budget_bytes) GTEST_SKIP() << "no file without a name, or a sanitizer's own allocation";
    EXPECT_LT(resident_bytes(), budget_bytes + 16 * MiB);
    for (std::size_t b = 0; b < blocks; ++b)
        for (std::size_t i = 0; i < block_numbers; i += 511)
            ASSERT_EQ(all[b][i], b * block_numbers + i);
    all.clear();
    EXPECT_LE(stored_bytes(), 2 * 64 * MiB); // what was reserved ahead, in steps of 64 MiB
    all.assign(blocks, counted(7));          // blocks that were given back hold again
    EXPECT_EQ(all.back().back(), 7 + block_numbers - 1);
}

TEST(MemoryStore, ServesManyThreadsAtOnce) {
    keep_memory_within(budget_bytes, {testing::TempDir()});
    std::vector<std::thread> threads;
    std::vector<int> wrong(4, 0);
    for (std::size_t t = 0; t < wrong.size(); ++t)
        threads.emplace_back([&wrong, t] {
            for (std::size_t round = 0; round < 200; ++round) {
                const std::size_t size = 5000 + 997 * ((round * 31 + t * 7) % 400);
                std::vector<std::uint64_t> numbers(size, round * 4 + t);
                std::this_thread::yield();
                for (const std::uint64_t number : numbers)
                    wrong[t] += number != round * 4 + t;
            }
        });
    for (std::thread& thread : threads)
        thread.join();
    EXPECT_EQ(wrong, std::vector<int>(4, 0));
}

} // namespace
} // namespace quartercut::cli
