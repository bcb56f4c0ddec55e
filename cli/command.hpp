// Command: what each command of the program is made of. Parsing stores options and does no work; run does it.
#pragma once

#include <functional>
#include <string>

#include <CLI/CLI.hpp>

#include "coldtally/quantities.hpp"
#include "coldtally/words.hpp"
#include "output.hpp"

namespace coldtally::cli {

/// The numbers with which the program ends; every help page states them.
enum ExitStatus { done = 0, answer_is_no = 1, refused = 2, machine_failed = 3 };

/// How wide tables are where no terminal says it, and on paper.
inline constexpr int paper_columns = 100;

/// What a command may use of the process beside its options.
struct Surroundings {
    Instant now;
    bool color = false;  ///< what --color auto means: a terminal, and NO_COLOR is not set
    int columns = paper_columns;  ///< how wide tables are
    Output& out;
    const Phrasebook& book;  ///< what answers are said by
};

/// Returns the exit status; throws coldtally::Error.
using Run = std::function<int(const Surroundings&)>;

// Each adds one command to the program, and sets `run` where the arguments choose it.
void add_help(CLI::App& program, Run& run);
/// A row of questions.cpp.
void add_question(const char* name, CLI::App& program, Run& run);
void add_post(CLI::App& program, Run& run);
void add_replay(CLI::App& program, Run& run);
void add_export(CLI::App& program, Run& run);
void add_immunizations(CLI::App& program, Run& run);
void add_import(CLI::App& program, Run& run);
void add_incident(CLI::App& program, Run& run);
void add_notice(CLI::App& program, Run& run);
void add_step(CLI::App& program, Run& run);
void add_report(CLI::App& program, Run& run);
void add_answer(CLI::App& program, Run& run);
void add_new_plan(CLI::App& program, Run& run);
void add_patient_step(CLI::App& program, Run& run);
void add_trained(CLI::App& program, Run& run);
void add_verify(CLI::App& program, Run& run);
void add_backup(CLI::App& program, Run& run);
void add_restore(CLI::App& program, Run& run);
void add_receive(CLI::App& program, Run& run);
void add_move(CLI::App& program, Run& run);
void add_give(CLI::App& program, Run& run);
void add_give_records(CLI::App& program, Run& run);
void add_waste(CLI::App& program, Run& run);
void add_give_back(CLI::App& program, Run& run);
void add_transfer(CLI::App& program, Run& run);
void add_handover(CLI::App& program, Run& run);
void add_count(CLI::App& program, Run& run);
void add_check(CLI::App& program, Run& run);
void add_hold(CLI::App& program, Run& run);
void add_guidance(CLI::App& program, Run& run);
void add_beyond_use(CLI::App& program, Run& run);
void add_loan(CLI::App& program, Run& run);
void add_repayment(CLI::App& program, Run& run);
void add_takeback(CLI::App& program, Run& run);
void add_start(CLI::App& program, Run& run);
void add_template(CLI::App& program, Run& run);
void add_site(CLI::App& program, Run& run);
void add_product(CLI::App& program, Run& run);
void add_lot(CLI::App& program, Run& run);
void add_place(CLI::App& program, Run& run);
void add_probe(CLI::App& program, Run& run);
void add_certificate(CLI::App& program, Run& run);
void add_maker(CLI::App& program, Run& run);
void add_assign(CLI::App& program, Run& run);
void add_pack(CLI::App& program, Run& run);
void add_unpack(CLI::App& program, Run& run);

/// Lines of at most so many characters (of ASCII text), for help pages.
std::string folded(const std::string& text, std::size_t columns = 100);
/// The end of a help page: an example and what the exit statuses mean. `no` is what status 1 means, where there is one.
std::string help_end(const std::string& example, const std::string& no = "");
/// The example of a help page that ends with help_end.
std::string example_of(const CLI::App& command);

}  // namespace coldtally::cli
