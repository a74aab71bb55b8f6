// SPDX-License-Identifier: MIT
// The program: parses the command line, runs one command, and is the only place that turns errors into exit codes.
#include "cli/command.hpp"
#include "cli/terminal.hpp"

#include "quartercut/error.hpp"

#include <clocale>
#include <csignal>
#include <cstdio>
#include <filesystem>

namespace quartercut::cli {
namespace {

constexpr const char* k_description =
    "Compares ways of cutting a crop - swathed, standing, any other - from yield-monitor records, says how sure the\n"
    "difference is, and writes zone maps and a report.\n\n"
    "Try it on an invented season:\n"
    "  quartercut demo my-season\n"
    "  quartercut check my-season/season.toml\n"
    "  quartercut compare my-season/season.toml      then open my-season/results/report.html";

constexpr const char* k_footer =
    "Exit status: 0 done ('not shown' is done), 1 the input is at fault, 2 wrong usage, 74 cannot write, 70 a defect "
    "of ours.\n'quartercut COMMAND --help' teaches the command.";

/// What --out means to a command, and where it writes without it.
std::string words_for_out(const std::string& command) {
    if (command == "choose") return "Folder for the choice (default: 'next_year' beside the season file)";
    if (command == "layout") return "Folder for the layout (default: 'layout-FIELD' beside the season file)";
    if (command == "stake") return "Folder for the zones (default: 'zones' beside the season file)";
    if (command == "compare")
        return "Folder for the results (default: 'results' beside the season file; with --part: 'parts')";
    return "Folder for the results (default: 'results' beside the season file)";
}

void add_common_options(CLI::App& app, CommonOptions& common) {
    app.add_option("--out", common.out, words_for_out(app.get_name()))->type_name("DIR");
    app.add_option("--only", common.only,
                   "Look at this field only; for several, write it before each: --only A --only B")
        ->type_name("FIELD")
        ->allow_extra_args(false);
    app.add_option("--jobs", common.jobs, "Worker threads (default: all cores); the results do not depend on it")
        ->type_name("N")
        ->check(CLI::Range(1, 1024));
    app.add_option(
           "--memory", common.memory_gib,
           "GiB to hold in memory (default: 1.5); the rest of a large season waits on the disk beside the results")
        ->type_name("GIB")
        ->check(CLI::Range(0.25, 1024.0));
    app.add_flag("--json", common.json, "Print the result as JSON on standard output, nothing else there");
    app.add_flag("--quiet", common.quiet, "Print errors only");
    app.add_flag("--no-color", common.no_color, "No colour (NO_COLOR does the same)");
}

int usage_error(const CLI::App& app, const std::string& message, const std::string& command) {
    tell("quartercut: " + message);
    const std::string near = nearest_command(app, command);
    if (!near.empty() && near != command) tell("Did you mean 'quartercut " + near + "'?");
    tell("'quartercut --help' lists commands and options.");
    return static_cast<int>(ExitCode::usage);
}

/// The first word of the command line, where it is a command; empty when options come first.
std::string first_word(int argc, char** argv) { return argc > 1 && argv[1][0] != '-' ? argv[1] : ""; }

int show(const std::string& text, ExitCode code) {
    print(text);
    finish_output();
    return static_cast<int>(code);
}

int run(int argc, char** argv) {
    CLI::App app{k_description, "quartercut"};
    app.footer(k_footer);
    app.set_version_flag("--version", std::string("quartercut ") + QUARTERCUT_VERSION);
    app.fallthrough();
    app.require_subcommand(1);
    CommonOptions common;
    Action action;
    add_common_options(app, common);
    setup_check(app, common, action);
    setup_compare(app, common, action);
    setup_join(app, common, action);
    setup_report(app, common, action);
    setup_choose(app, common, action);
    setup_layout(app, common, action);
    setup_demo(app, common, action);
    setup_stake(app, common, action);
    setup_start(app, common, action);
    for (CLI::App* command : app.get_subcommands(nullptr))
        add_common_options(*command, common);
    if (argc == 1) return show(app.help(), ExitCode::usage);
    const std::string command = first_word(argc, argv);
    // Asked before parsing: `--help` behind an unknown command would otherwise be answered as if all were well.
    if (!command.empty() && !has_command(app, command))
        return usage_error(app, "there is no command '" + command + "' in this version.", command);
    try {
        app.parse(argc, argv);
    } catch (const CLI::CallForHelp&) {
        return show(app.help(), ExitCode::done);
    } catch (const CLI::CallForVersion&) {
        return show(app.version() + "\n", ExitCode::done);
    } catch (const CLI::ParseError& error) {
        return usage_error(app, error.what(), command);
    }
    allow_color(!common.no_color);
    action();
    finish_output();
    return 0;
}

} // namespace
} // namespace quartercut::cli

int main(int argc, char** argv) {
    // Numbers are read and written the same in every locale; only messages of the system may be translated.
    std::setlocale(LC_ALL, "C.UTF-8");
    // A file-size limit then fails the write, which is said and cleaned up, instead of killing the program half-way.
    std::signal(SIGXFSZ, SIG_IGN);
    try {
        return quartercut::cli::run(argc, argv);
    } catch (const quartercut::Error& error) {
        quartercut::cli::tell(std::string("quartercut: ") + error.what());
        const std::string reminder = quartercut::cli::row_reminder(error.what());
        if (!reminder.empty()) quartercut::cli::tell(reminder);
        if (error.code() == quartercut::ExitCode::defect)
            std::fputs("This is a defect of quartercut, not of your data. Nothing was written.\n", stderr);
        return static_cast<int>(error.code());
    } catch (const std::filesystem::filesystem_error& error) {
        quartercut::cli::tell("quartercut: " + error.path1().string() + ": " + error.code().message() + ".");
        return static_cast<int>(quartercut::ExitCode::input);
    } catch (const std::bad_alloc&) {
        std::fputs(
            "quartercut: the machine has no memory left. Close other programs, look at fewer fields with --only, "
            "or make room on the disk beside the results.\n",
            stderr);
        return static_cast<int>(quartercut::ExitCode::cannot_write);
    } catch (const std::exception& error) {
        std::fprintf(stderr, "quartercut: %s\nThis is a defect of quartercut. Nothing was written.\n", error.what());
        return static_cast<int>(quartercut::ExitCode::defect);
    }
}
