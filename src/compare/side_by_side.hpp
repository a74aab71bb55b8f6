// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <tbb/parallel_for.h>
#include <tbb/task_arena.h>

namespace quartercut::contrast {

/// Runs task(0) ... task(count - 1) on the cores that are free. Isolated: a thread that waits here must not begin another
/// field meanwhile, or many would be held in memory at once.
template <class Task>
void side_by_side(std::size_t count, const Task& task) {
    tbb::this_task_arena::isolate([&] { tbb::parallel_for(std::size_t{0}, count, task, tbb::simple_partitioner{}); });
}

} // namespace quartercut::contrast
