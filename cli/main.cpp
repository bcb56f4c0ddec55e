// coldtally: the command line. It chooses a command, runs it, and turns what went wrong into one line and an exit
// status.
#include <fcntl.h>
#include <malloc.h>
#include <sys/mman.h>
#include <unistd.h>

#include <algorithm>
#include <csignal>
#include <cstdint>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <new>
#include <span>
#include <sstream>
#include <string>
#include <string_view>
#include <vector>

#include "clock.hpp"
#include "coldtally/error.hpp"
#include "command.hpp"
#include "layout_options.hpp"

namespace coldtally::cli {
namespace {

// A descriptor 0 to 2 that is closed would be given to the next file opened, the ledger perhaps, and then printed into.
void hold_standard_descriptors() {
    int descriptor = ::open("/dev/null", O_RDONLY);
    while (descriptor >= 0 && descriptor <= STDERR_FILENO) descriptor = ::open("/dev/null", O_RDONLY);
    if (descriptor >= 0) ::close(descriptor);
}

// A question takes some megabytes, and to get them 4 KiB at a time takes up to a seventh of its time. The heap is made
// to grow once, by addresses alone, and is given large pages where the system has them.
void take_large_pages() {
    constexpr int at_once = 64 << 20, usual = 128 << 10,
                  apart = 4 << 20;  // what is larger than `apart` is no part of the heap
    mallopt(M_TRIM_THRESHOLD, 2 * at_once);
    mallopt(M_MMAP_THRESHOLD, apart);
    mallopt(M_TOP_PAD, at_once);
    void* const first = std::malloc(apart / 2);  // more than what is left of the heap there was
    mallopt(M_TOP_PAD, usual);                   // where there are not so many addresses, it grows as ever
    if (!first) return;
    const auto page = static_cast<std::uintptr_t>(::sysconf(_SC_PAGESIZE));
    const auto from = reinterpret_cast<std::uintptr_t>(first) / page * page;
    const auto until = reinterpret_cast<std::uintptr_t>(::sbrk(0));
    if (from < until) ::madvise(reinterpret_cast<void*>(from), until - from, MADV_HUGEPAGE);
    std::free(first);
}

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
    return {out.rbegin(), out.rend()};  // CLI11 takes them from the back
}

// The page that says what is right.
std::string help_page(const CLI::App& program) {
    const auto chosen = program.get_subcommands();
    return " (coldtally " + (chosen.empty() ? std::string() : chosen.front()->get_name() + " ") +
           "--help says what is right)";
}

// CLI11 says of a command that is not there only that one is required.
void check_command(const CLI::App& program, const std::vector<std::string>& from_the_back) {
    if (from_the_back.empty()) throw Error(Code::missing_field, "no command is given" + help_page(program));
    if (from_the_back.back().starts_with("-")) return;
    const auto commands = program.get_subcommands([](const CLI::App*) { return true; });
    for (const CLI::App* command : commands)
        if (command->get_name() == from_the_back.back()) return;
    throw Error(Code::bad_value, "\"" + from_the_back.back() + "\" is not a command" + help_page(program));
}

// An argument too many may be what is left of a patient's token, or of a name that should be none.
bool takes_a_patient(const CLI::App& program) {
    for (const CLI::App* command : program.get_subcommands())
        if (command->get_option_no_throw("PATIENT") || command->get_option_no_throw("--patient")) return true;
    return false;
}

std::string parse_message(const CLI::App& program, const CLI::ParseError& error) {
    if (dynamic_cast<const CLI::ExtrasError*>(&error) && takes_a_patient(program))
        return "there are more arguments than the command takes";
    return error.what();
}

// What CLI11 finds missing may be named once for all.
std::string or_environment(const std::string& message) {
    if (message == "LEDGER is required" || message == "--ledger is required")
        return ", unless COLDTALLY_LEDGER names it";
    return message == "--by is required" ? ", unless COLDTALLY_BY names them" : "";
}

/// LEDGER of the chosen command; none where it takes none.
const CLI::Option* ledger_argument(const CLI::App& program) {
    for (const CLI::App* command : program.get_subcommands())
        if (const CLI::Option* ledger = command->get_option_no_throw("LEDGER"); ledger && ledger->get_positional())
            return ledger;
    return nullptr;
}

bool is_database(const std::string& file) {
    constexpr std::string_view magic("SQLite format 3\0", 16);  // https://www.sqlite.org/fileformat2.html, 1.2
    std::error_code error;
    if (!std::filesystem::is_regular_file(file, error)) return false;
    std::string start(magic.size(), ' ');
    std::ifstream(file, std::ios::binary).read(start.data(), static_cast<std::streamsize>(start.size()));
    return start == magic;
}

// Whoever has named the ledger in COLDTALLY_LEDGER need not name it again: it stands for LEDGER where an argument is
// missing, or where the first one names no database and the command takes one more.
void parse(CLI::App& program, const std::vector<std::string>& given) {
    const char* ledger = std::getenv("COLDTALLY_LEDGER");
    std::vector<std::string> with = given;
    if (ledger && *ledger) with.insert(with.end() - 1, ledger);
    try {
        program.parse(std::vector<std::string>(given));
        const CLI::Option* first = ledger_argument(program);
        if (with == given || !first || is_database(first->as<std::string>())) return;
    } catch (const CLI::RequiredError&) {
        if (with == given || !ledger_argument(program)) throw;
        program.parse(std::move(with));
        return;
    }
    try {
        program.parse(std::move(with));
    } catch (const CLI::ParseError&) {
        program.parse(std::vector<std::string>(given));
    }
}

// In the order of the help page.
struct Command {
    std::string_view name;
    void (*add)(CLI::App&, Run&);
};
constexpr Command commands[] = {
    {"post", add_post},
    {"replay", add_replay},
    {"export", add_export},
    {"import", add_import},
    {"stock", add_stock},
    {"lists", add_lists},
    {"review", add_review},
    {"immunizations", add_immunizations},
    {"excursions", add_excursions},
    {"conditions", add_conditions},
    {"unit", add_unit},
    {"readiness", add_readiness},
    {"explain", add_explain},
    {"scan", add_scan},
    {"notice", add_notice},
    {"step", add_step},
    {"incident", add_incident},
    {"report", add_report},
    {"answer", add_answer},
    {"rules", add_rules},
    {"dates", add_dates},
    {"loans", add_loans},
    {"accountability", add_accountability},
    {"plan", add_plan},
    {"new-plan", add_new_plan},
    {"follow-up", add_follow_up},
    {"patient-step", add_patient_step},
    {"training", add_training},
    {"trained", add_trained},
    {"verify", add_verify},
    {"backup", add_backup},
    {"restore", add_restore},
    {"receive", add_receive},
    {"move", add_move},
    {"give", add_give},
    {"give-records", add_give_records},
    {"waste", add_waste},
    {"return", add_give_back},
    {"transfer", add_transfer},
    {"handover", add_handover},
    {"count", add_count},
    {"check", add_check},
    {"hold", add_hold},
    {"guidance", add_guidance},
    {"beyond-use", add_beyond_use},
    {"loan", add_loan},
    {"repayment", add_repayment},
    {"takeback", add_takeback},
    {"site", add_site},
    {"product", add_product},
    {"lot", add_lot},
    {"place", add_place},
    {"probe", add_probe},
    {"certificate", add_certificate},
    {"maker", add_maker},
    {"assign", add_assign},
    {"move-list", add_move_list},
    {"pack", add_pack},
    {"unpack", add_unpack},
    {"trip", add_trip},
};

/// The command that the first argument names; all of them where it names none. To describe the options of all costs
/// more than a short question takes.
std::span<const Command> chosen(const std::vector<std::string>& from_the_back) {
    if (from_the_back.empty()) return commands;
    const auto* named = std::find_if(std::begin(commands), std::end(commands),
                                     [&](const Command& c) { return c.name == from_the_back.back(); });
    return named == std::end(commands) ? std::span<const Command>(commands) : std::span<const Command>(named, 1);
}

int run_program(int count, char** given) {
    const std::vector<std::string> from_the_back = arguments(count, given);
    Output out(STDOUT_FILENO);
    Run run;
    CLI::App program(
        "coldtally: which vaccine doses were where, what temperatures they have been through, which must not be used",
        "coldtally");
    program.set_version_flag("--version", "coldtally " COLDTALLY_VERSION, "prints the version");
    program.set_help_flag("-h,--help", "prints this help");
    program.require_subcommand(1);
    program.get_formatter()->column_width(28);
    program.get_formatter()->label("SUBCOMMAND", "COMMAND");
    program.get_formatter()->label("Subcommands", "Commands");
    for (const Command& c : chosen(from_the_back)) c.add(program, run);
    program.footer("coldtally COMMAND --help says more of each.\n\n" +
                   help_end("coldtally lists clinic.ledger",
                            "verify, plan --check or readiness --check found something;\n     answer --yes posted "
                            "nothing, because the answer does not cover all that is known"));

    const auto fail = [&](ExitStatus status, const std::string& message) {
        say_on_standard_error(with_short_arguments(message, from_the_back));
        return status;
    };
    try {
        try {
            check_command(program, from_the_back);
            parse(program, from_the_back);
        } catch (const CLI::Success& asked) {  // help or version
            std::ostringstream text, nothing;
            program.exit(asked, text, nothing);
            out.write(text.str());
            out.flush();
            return done;
        }
        const char* no_color = std::getenv("NO_COLOR");
        const bool color = ::isatty(STDOUT_FILENO) && !(no_color && *no_color);
        const int status = run({current_instant(), color, out});
        out.flush();
        return status;
    } catch (const CLI::ParseError& error) {
        return fail(refused, parse_message(program, error) + or_environment(error.what()) + help_page(program));
    } catch (const LoggerRefusal& refusal) {
        const auto lines = lines_of(refusal);
        for (const auto& line : lines) say_on_standard_error(line, &line == &lines.front() ? "coldtally: " : "");
        return refused;
    } catch (const Error& error) {
        return fail(is_machine_failure(error.code()) ? machine_failed : refused, error.what());
    } catch (const std::bad_alloc&) {
        return fail(machine_failed, "out of memory");
    } catch (const std::exception& error) {
        return fail(machine_failed, error.what());
    }
}

}  // namespace
}  // namespace coldtally::cli

int main(int count, char** given) {
    coldtally::cli::take_large_pages();
    coldtally::cli::hold_standard_descriptors();
    std::signal(SIGPIPE, SIG_IGN);  // a reader that has gone is an output that cannot be written: status 3
    std::signal(
        SIGXFSZ,
        SIG_IGN);  // so is a file that may not grow further (ulimit -f): without it the process ends without a word
    return coldtally::cli::run_program(count, given);
}
