// SPDX-License-Identifier: MIT
// Large blocks come from one shared mapping of a sparse file. A page of such a mapping can be dropped at any moment, by
// any thread: it is read from the file (or the system's cache of it) when it is touched again. So the whole store can be
// bounded without a word in the rooms, whose vectors stay vectors.
//
// Room on the disk is reserved before a block is handed out, for a page that cannot be written would end the program.
#include "cli/memory_store.hpp"

#include <algorithm>
#include <array>
#include <atomic>
#include <bit>
#include <chrono>
#include <cstdint>
#include <cstdio>
#include <cstdlib>
#include <fcntl.h>
#include <malloc.h>
#include <mutex>
#include <new>
#include <string>
#include <sys/mman.h>
#include <thread>
#include <unistd.h>

namespace quartercut::cli {
namespace {

constexpr std::size_t KiB = 1024, MiB = 1024 * KiB, page_bytes = 4 * KiB;
constexpr std::size_t large_bytes = 32 * KiB; ///< smaller blocks are many and soon gone: the heap's business
constexpr std::size_t space_bytes = std::size_t{1} << 42; ///< of addresses, not of disk
constexpr std::size_t reserve_step_bytes = 64 * MiB;
constexpr std::size_t worth_returning_bytes = 1 * MiB; ///< freed blocks of this size give their disk back
constexpr std::size_t header_bytes = 64;               ///< keeps blocks aligned for any vector unit

/// Sits before each block; of a free one it names the next free block of its size.
struct Header {
    std::size_t size_class = 0;
    Header* next = nullptr;
};

/// Sizes are 1, 1.25, 1.5 and 1.75 times a power of two, so that freed blocks fit again.
constexpr std::size_t class_count = 4 * 48;

std::size_t class_of(std::size_t bytes) {
    const auto exponent = static_cast<std::size_t>(std::bit_width(bytes - 1)) - 1; // 2^exponent < bytes
    const std::size_t quarter = (std::size_t{1} << exponent) / 4;
    const std::size_t quarters = (bytes + quarter - 1) / quarter; // 5 to 8 of them
    return 4 * exponent + quarters - 5;
}

std::size_t class_bytes(std::size_t size_class) {
    return ((std::size_t{1} << (size_class / 4)) / 4) * (size_class % 4 + 5);
}

/// Some file systems make no file without a name; there it has one for a moment.
int file_without_name(const std::filesystem::path& folder) {
    const int file = ::open(folder.c_str(), O_TMPFILE | O_RDWR | O_CLOEXEC, 0600);
    if (file >= 0) return file;
    std::string name = (folder / ".quartercut-memory-XXXXXX").string();
    const int named = ::mkostemp(name.data(), O_CLOEXEC);
    if (named >= 0) ::unlink(name.c_str());
    return named;
}

class Store {
public:
    bool open(const std::filesystem::path& folder) {
        file_ = file_without_name(folder.empty() ? "." : folder);
        if (file_ < 0) return false;
        void* const mapped =
            ::ftruncate(file_, static_cast<off_t>(space_bytes)) == 0
                ? ::mmap(nullptr, space_bytes, PROT_READ | PROT_WRITE, MAP_SHARED | MAP_NORESERVE, file_, 0)
                : MAP_FAILED;
        if (mapped == MAP_FAILED) {
            ::close(file_);
            return false;
        }
        base_ = static_cast<std::byte*>(mapped);
        return true;
    }

    /// Null where the disk has no room.
    void* take(std::size_t bytes) {
        const std::size_t size_class = class_of(bytes + header_bytes);
        const std::lock_guard lock(mutex_);
        Header* block = free_.at(size_class);
        if (block != nullptr) {
            if (!reserve_again(block, class_bytes(size_class))) return nullptr;
            free_.at(size_class) = block->next;
        } else {
            block = append(class_bytes(size_class));
            if (block == nullptr) return nullptr;
        }
        block->size_class = size_class;
        return reinterpret_cast<std::byte*>(block) + header_bytes; // NOLINT
    }

    void give_back(void* place) {
        auto* const block = reinterpret_cast<Header*>(static_cast<std::byte*>(place) - header_bytes); // NOLINT
        const std::size_t bytes = class_bytes(block->size_class);
        const std::lock_guard lock(mutex_);
        // The first page stays, since the header lies in it.
        if (bytes >= worth_returning_bytes)
            ::fallocate(file_, FALLOC_FL_PUNCH_HOLE | FALLOC_FL_KEEP_SIZE, offset(block) + page_offset,
                        static_cast<off_t>(bytes - page_bytes));
        block->next = free_.at(block->size_class);
        free_.at(block->size_class) = block;
    }

    [[nodiscard]] bool holds(const void* place) const {
        const auto* const at = static_cast<const std::byte*>(place);
        return base_ != nullptr && at >= base_ && at < base_ + space_bytes; // NOLINT
    }

    /// Nothing is lost: pages of a shared mapping live on in the file.
    void leave_memory() {
        const std::size_t used = used_.load();
        if (used > 0) ::madvise(base_, used, MADV_DONTNEED);
    }

private:
    static constexpr off_t page_offset = static_cast<off_t>(page_bytes);

    [[nodiscard]] off_t offset(const Header* block) const {
        return static_cast<off_t>(reinterpret_cast<const std::byte*>(block) - base_); // NOLINT
    }
    [[nodiscard]] bool reserve_again(const Header* block, std::size_t bytes) const {
        return bytes < worth_returning_bytes ||
               ::fallocate(file_, 0, offset(block) + page_offset, static_cast<off_t>(bytes - page_bytes)) == 0;
    }
    Header* append(std::size_t bytes) {
        const std::size_t begin = used_.load();
        if (begin + bytes > space_bytes) return nullptr;
        if (begin + bytes > reserved_) {
            const std::size_t more = std::max(reserve_step_bytes, begin + bytes - reserved_);
            if (::fallocate(file_, 0, static_cast<off_t>(reserved_), static_cast<off_t>(more)) != 0) return nullptr;
            reserved_ += more;
        }
        used_ = begin + bytes;
        return new (base_ + begin) Header; // NOLINT
    }

    int file_ = -1;
    std::byte* base_ = nullptr;
    std::atomic<std::size_t> used_{0};
    std::size_t reserved_ = 0;
    std::array<Header*, class_count> free_{};
    std::mutex mutex_;
};

/// Outlives every block: never destroyed.
Store& store() {
    alignas(Store) static std::array<std::byte, sizeof(Store)> room;
    static Store* const only = new (room.data()) Store;
    return *only;
}

std::atomic<bool> storing{false};
std::atomic<std::size_t> heap_limit_bytes{0}, heap_bytes{0}; ///< of large blocks

std::size_t resident_bytes() {
    std::FILE* const file = std::fopen("/proc/self/statm", "r");
    if (file == nullptr) return 0;
    unsigned long all = 0, resident = 0;
    const int found = std::fscanf(file, "%lu %lu", &all, &resident); // NOLINT
    std::fclose(file);
    return found == 2 ? resident * static_cast<std::size_t>(::sysconf(_SC_PAGESIZE)) : 0;
}

[[noreturn]] void watch(std::size_t budget_bytes) {
    for (;;) {
        if (resident_bytes() > budget_bytes) store().leave_memory();
        std::this_thread::sleep_for(std::chrono::milliseconds(20));
    }
}

/// What the heap gave: large or not is judged by this, when it is taken and when it goes, so that the sum is right.
void count_large(void* place, bool taken) {
    const std::size_t bytes = ::malloc_usable_size(place);
    if (bytes < large_bytes) return;
    taken ? heap_bytes += bytes : heap_bytes -= bytes;
}

void* allocate(std::size_t bytes) {
    if (bytes >= large_bytes && storing.load(std::memory_order_relaxed) && heap_bytes + bytes > heap_limit_bytes)
        if (void* const place = store().take(bytes)) return place;
    void* const place = std::malloc(bytes == 0 ? 1 : bytes); // NOLINT
    if (place == nullptr) throw std::bad_alloc();
    count_large(place, true);
    return place;
}

void release(void* place) {
    if (place == nullptr) return;
    if (storing.load(std::memory_order_relaxed) && store().holds(place)) return store().give_back(place);
    count_large(place, false);
    std::free(place); // NOLINT
}

} // namespace

/// Columns are made and dropped over and over; taken from the system each time, each of their pages would be cleared anew.
void keep_freed_memory() {
    constexpr int largest_kept = 64 << 20, most_kept = 256 << 20;
    ::mallopt(M_MMAP_THRESHOLD, largest_kept);
    ::mallopt(M_TRIM_THRESHOLD, most_kept);
}

void keep_memory_within(std::size_t budget_bytes, const std::vector<std::filesystem::path>& folders) {
    if (budget_bytes == 0 || storing) return;
    keep_freed_memory();
    if (std::none_of(folders.begin(), folders.end(), [](const auto& folder) { return store().open(folder); })) return;
    heap_limit_bytes = budget_bytes / 3;
    storing = true;
    std::thread(watch, budget_bytes).detach();
}

} // namespace quartercut::cli

// The sanitizers bring their own, and count on finding each block where they put it.
#if defined(__SANITIZE_ADDRESS__) || defined(__SANITIZE_THREAD__)
#define QUARTERCUT_SANITIZED
#elif defined(__has_feature)
#if __has_feature(address_sanitizer) || __has_feature(thread_sanitizer)
#define QUARTERCUT_SANITIZED
#endif
#endif
#ifndef QUARTERCUT_SANITIZED
void* operator new(std::size_t bytes) { return quartercut::cli::allocate(bytes); }
void operator delete(void* place) noexcept { quartercut::cli::release(place); }
void operator delete(void* place, std::size_t) noexcept { quartercut::cli::release(place); }
#endif
