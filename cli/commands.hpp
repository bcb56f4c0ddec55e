// Commands: all of them, in groups, each with the words by which a person looks for it.
#pragma once

#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "command.hpp"

namespace coldtally::cli {

enum class Group { every_day, wrong, known, setting_up, file };

struct Command {
    const char* name;
    Group group;
    const char* line;                        ///< in coldtally --help; nullptr: it shares that of the command before it
    const char* words;                       ///< phrases of everyday speech, with commas between them
    void (*add)(CLI::App&, Run&) = nullptr;  ///< nullptr: a row of questions.cpp
};

/// In the order of the help page.
std::span<const Command> commands();
/// Or nullptr.
const Command* find_command(std::string_view name);

/// The page of coldtally --help.
std::string overview();

/// Makes a program of this one command; to describe the options of all costs more than a short question takes.
void describe(const Command& command, CLI::App& program, Run& run);
/// What coldtally COMMAND --help prints.
std::string page_of(const Command& command);

/// The commands for words of everyday speech, those that fit best alone, at most six; empty where none does.
std::vector<const Command*> commands_for(const std::string& words);
/// A line for each: what it does, with its example.
std::string shown(const std::vector<const Command*>& found);
/// "; did you mean ...?" for a word that is no command: one that it is everyday speech for, or that is spelled nearly
/// so.
std::string meant_command(const std::string& word);
/// The same for everyday words, with the commands they lead to.
std::string meant_words(const std::string& words);

}  // namespace coldtally::cli
