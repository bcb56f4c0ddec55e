#include "program.hpp"

#include <sys/ioctl.h>
#include <unistd.h>

#include <algorithm>
#include <charconv>
#include <cstdlib>
#include <cstring>
#include <new>
#include <string>
#include <vector>

#include "clock.hpp"
#include "coldtally/error.hpp"
#include "coldtally/nearest.hpp"
#include "commands.hpp"
#include "layout_options.hpp"
#include "ledger_word.hpp"

namespace coldtally::cli {
namespace {

/// Of a text over 200 characters its beginning, "…" and how long it is.
std::string shortened(const std::string& text) {
    constexpr std::size_t most = 200;
    std::size_t characters = 0, cut = 0;
    for (std::size_t i = 0; i < text.size(); ++i)
        if ((static_cast<unsigned char>(text[i]) & 0xC0) != 0x80 && ++characters == most) cut = i;
    if (characters <= most) return text;
    return text.substr(0, cut) + "\xE2\x80\xA6 (" + std::to_string(characters) + " characters)";
}

/// A message that repeats an argument, or the value of one, repeats its beginning where it is long.
std::string with_short_arguments(std::string message, const std::vector<std::string>& given) {
    for (std::string argument : given) {
        if (const auto value = argument.find('=');
            argument.starts_with("--") && value != std::string::npos && message.find(argument) == std::string::npos)
            argument.erase(0, value + 1);
        const std::string short_form = shortened(argument);
        if (short_form == argument) continue;
        for (auto at = message.find(argument); at != std::string::npos;
             at = message.find(argument, at + short_form.size()))
            message.replace(at, argument.size(), short_form);
    }
    return message;
}

// "--mark=" states an empty mark; CLI11 would take the next argument for its value.
std::vector<std::string> arguments(int count, char** given) {
    std::vector<std::string> out;
    bool options = true;
    for (int i = 1; i < count; ++i) {
        std::string argument = given[i];
        options = options && argument != "--";
        const bool empty_value =
            options && argument.size() > 3 && argument.starts_with("--") && argument.find('=') == argument.size() - 1;
        if (!empty_value) {
            out.push_back(std::move(argument));
            continue;
        }
        argument.pop_back();
        out.push_back(std::move(argument));
        out.emplace_back();
    }
    if (!out.empty() && (out.front() == "--help" || out.front() == "-h")) out.front() = "help";
    return out;
}

// The page that says what is right.
std::string help_page(const std::string& command = "") {
    return " (coldtally " + (command.empty() ? "" : command + " ") + "--help says what is right)";
}

const Command& chosen(const std::vector<std::string>& given) {
    if (given.empty()) throw Error(Code::missing_field, "no command is given" + help_page());
    const std::string& first = given.front();
    if (const Command* command = find_command(first)) return *command;
    if (first.starts_with("-"))
        throw Error(Code::bad_value, "\"" + first + "\" is no option of coldtally" +
                                         did_you_mean(nearest(first, {"--help", "--version"})) + help_page());
    throw Error(Code::bad_value, "\"" + first + "\" is not a command" + meant_command(first) + help_page());
}

// An argument too many may be what is left of a patient's token, or of a name that should be none.
bool takes_a_patient(const CLI::App& command) {
    return command.get_option_no_throw("PATIENT") || command.get_option_no_throw("--patient");
}

std::string parse_message(const CLI::App& command, const CLI::ParseError& error) {
    if (dynamic_cast<const CLI::ExtrasError*>(&error) && takes_a_patient(command))
        return "there are more arguments than the command takes";
    return error.what();
}

// What CLI11 finds missing may be named once for all.
std::string or_environment(const std::string& message) {
    if (message == "LEDGER is required" || message == "NEW is required")
        return ", unless --ledger or COLDTALLY_LEDGER names it";
    if (message == "--ledger is required") return ", unless COLDTALLY_LEDGER names it";
    return message == "--by is required" ? ", unless COLDTALLY_BY names them" : "";
}

std::string ledger_set() {
    const char* set = std::getenv("COLDTALLY_LEDGER");
    return set ? set : "";
}

void parse(CLI::App& program, const CLI::App& command, std::vector<std::string> given) {
    try {
        given = with_ledger(command, std::move(given), ledger_set(), takes_a_patient(command));
    } catch (const Error& error) {
        throw Error(error.code(), error.what() + help_page(command.get_name()));
    }
    given.insert(given.begin(), command.get_name());
    program.parse(std::vector<std::string>(given.rbegin(), given.rend()));  // CLI11 takes them from the back
}

/// How wide tables are: as COLUMNS says, else as the terminal is; as paper where there is none. Wider than 160 is hard
/// to read.
int table_columns() {
    constexpr int widest = 160;
    int said = 0;
    if (const char* set = std::getenv("COLUMNS")) {
        const char* const end = set + std::strlen(set);
        const auto read = std::from_chars(set, end, said);
        if (read.ec != std::errc() || read.ptr != end) said = 0;
    }
    winsize window{};
    if (said <= 0 && ::ioctl(STDOUT_FILENO, TIOCGWINSZ, &window) == 0) said = window.ws_col;
    return said > 0 ? std::min(said, widest) : paper_columns;
}

}  // namespace

int run_program(int count, char** from_shell, const Phrasebook& book) {
    const std::vector<std::string> words = arguments(count, from_shell);
    Output out(STDOUT_FILENO);
    std::string hint;
    const auto fail = [&](ExitStatus status, const std::string& message) {
        say_on_standard_error(with_short_arguments(message, words));
        return status;
    };
    try {
        if (!words.empty() && words.front() == "--version") {
            out.write("coldtally " COLDTALLY_VERSION "\n");
            out.flush();
            return done;
        }
        Run run;
        CLI::App program("", "coldtally");
        const Command& one = chosen(words);
        describe(one, program, run);
        const CLI::App& command = *program.get_subcommand(one.name);
        const std::vector<std::string> given(words.begin() + 1, words.end());
        try {
            parse(program, command, given);
        } catch (const CLI::CallForHelp&) {
            out.write(command.help("coldtally"));
            out.flush();
            return done;
        } catch (const CLI::ParseError& error) {
            return fail(refused,
                        parse_message(command, error) + or_environment(error.what()) + help_page(command.get_name()));
        }
        hint = ledger_hint(command, given, ledger_set());
        const char* no_color = std::getenv("NO_COLOR");
        const bool color = ::isatty(STDOUT_FILENO) && !(no_color && *no_color);
        const int status = run({current_instant(), color, table_columns(), out, book});
        out.flush();
        return status;
    } catch (const LoggerRefusal& refusal) {
        const auto lines = lines_of(refusal);
        for (const auto& line : lines) say_on_standard_error(line, &line == &lines.front() ? "coldtally: " : "");
        return refused;
    } catch (const WhichOne& one) {
        fail(refused, book.say(one.asked()) + ":");
        for (const auto& choice : one.choices())
            say_on_standard_error(with_short_arguments(book.say(choice), words), "  ");
        return refused;
    } catch (const Error& error) {
        return is_machine_failure(error.code()) ? fail(machine_failed, error.what())
                                                : fail(refused, error.what() + hint);
    } catch (const std::bad_alloc&) {
        return fail(machine_failed, "out of memory");
    } catch (const std::exception& error) {
        return fail(machine_failed, error.what());
    }
}


}  // namespace coldtally::cli
