// SPDX-License-Identifier: MIT
#include "base/text.hpp"
#include "cli/command.hpp"

namespace quartercut::cli {

std::string nearest_command(const CLI::App& app, const std::string& word) {
    std::vector<std::string> names;
    for (const CLI::App* command : app.get_subcommands(nullptr))
        names.push_back(command->get_name());
    return nearest_word(word, names).value_or("");
}

} // namespace quartercut::cli
