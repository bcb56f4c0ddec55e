#include "coldtally/error.hpp"

namespace coldtally {

std::string_view code_name(Code code) noexcept {
    switch (code) {
        case Code::bad_text: return "bad-text";
        case Code::bad_json: return "bad-json";
        case Code::unknown_field: return "unknown-field";
        case Code::missing_field: return "missing-field";
        case Code::bad_value: return "bad-value";
        case Code::contradiction: return "contradiction";
        case Code::not_defined: return "not-defined";
        case Code::no_site: return "no-site";
        case Code::too_late: return "too-late";
        case Code::wrong_scale: return "wrong-scale";
        case Code::readings_differ: return "readings-differ";
        case Code::not_enough: return "not-enough";
        case Code::not_there: return "not-there";
        case Code::handover_differs: return "handover-differs";
        case Code::not_voidable: return "not-voidable";
        case Code::in_use: return "in-use";
        case Code::out_of_order: return "out-of-order";
        case Code::not_known: return "not-known";
        case Code::bad_row: return "bad-row";
        case Code::ambiguous: return "ambiguous";
        case Code::ledger_missing: return "ledger-missing";
        case Code::ledger_exists: return "ledger-exists";
        case Code::not_a_ledger: return "not-a-ledger";
        case Code::newer_format: return "newer-format";
        case Code::older_format: return "older-format";
        case Code::damaged: return "damaged";
        case Code::busy: return "busy";
        case Code::machine: return "machine";
    }
    return "unknown";
}

bool is_machine_failure(Code code) noexcept { return code == Code::busy || code == Code::machine; }

}  // namespace coldtally
