// SPDX-License-Identifier: MIT
#include "base/text.hpp"
#include "cli/command.hpp"

#include <algorithm>

namespace quartercut::cli {
namespace {

std::vector<std::string> command_names(const CLI::App& app) {
    std::vector<std::string> names;
    for (const CLI::App* command : app.get_subcommands(nullptr))
        names.push_back(command->get_name());
    return names;
}

} // namespace

bool has_command(const CLI::App& app, const std::string& word) {
    const auto names = command_names(app);
    return std::find(names.begin(), names.end(), word) != names.end();
}

std::string nearest_command(const CLI::App& app, const std::string& word) {
    return nearest_word(word, command_names(app)).value_or("");
}

} // namespace quartercut::cli
