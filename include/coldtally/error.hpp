// Error: the one list of reasons for which coldtally refuses or fails, and the exception that carries one.
#pragma once

#include <stdexcept>
#include <string>
#include <string_view>

namespace coldtally {

/// Every refusal and failure has one of these codes. The names (code_name) are stable; the numbers are not.
/// Codes before `ledger_missing` refuse what was asked or given: nothing has been written.
/// The codes of the file say what is wrong with it; those from `busy` on mean that the machine failed.
enum class Code {
    // the text
    bad_text,       ///< not UTF-8, a NUL, a line that is too long, nothing there
    bad_json,       ///< not JSON, a key twice, nested too deep
    // one entry or one question by itself
    unknown_field,  ///< a field the kind does not have
    missing_field,  ///< a field the kind needs
    bad_value,      ///< a value of the wrong type, form or size
    contradiction,  ///< two fields that cannot both hold (low above high, min above max, ...)
    // an entry against the ledger
    not_defined,    ///< names a thing that no entry defines
    no_site,        ///< the first entry is not a site
    too_late,       ///< an instant after that of posting
    wrong_scale,    ///< readings or a check in another scale than the probe's
    readings_differ,///< two unequal readings of one probe at one instant
    not_enough,     ///< a holding would fall below 0
    not_there,      ///< a count or a beyond-use of a holding without doses
    handover_differs,///< a handover that does not match its product, or is not consistent
    not_voidable,   ///< a void of what cannot be voided
    in_use,         ///< a void of a definition that entries still name
    out_of_order,   ///< entry numbers or recorded instants that do not follow on
    // a question
    not_known,      ///< a place, holding or instant the ledger knows nothing of
    // a logger's file
    bad_row,        ///< a row of a logger's file that cannot be read
    ambiguous,      ///< a layout, a local time or a name with more than one meaning
    // the file
    ledger_missing, ///< no such file
    ledger_exists,  ///< a new ledger was asked for, and the file is there
    not_a_ledger,   ///< a file of another application
    newer_format,   ///< a ledger of a later format
    older_format,   ///< a ledger of an older format, of which a copy is to be made
    damaged,        ///< truncated or altered
    // the machine
    busy,           ///< another process holds the ledger
    machine,        ///< disk, file or memory
};

/// The stable name of a code, in lower case with hyphens ("not-enough").
std::string_view code_name(Code code) noexcept;

/// True where the machine failed (busy, machine): trying again may help. False where the data or the request is
/// refused.
bool is_machine_failure(Code code) noexcept;

/// What happened, in one line: where (line or entry), field, value, and what would be right.
class Error : public std::runtime_error {
public:
    Error(Code code, const std::string& message) : std::runtime_error(message), code_(code) {}
    Code code() const noexcept { return code_; }

private:
    Code code_;
};

}  // namespace coldtally
