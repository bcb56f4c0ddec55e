// FHIR: doses given as Immunization resources of HL7 FHIR R4 (4.0.1), read and written.
// https://hl7.org/fhir/R4/immunization.html
//
// This library never sets isSubpotent or subpotentReason. Whether a dose counts is a clinical decision of people;
// exposure alone never says it. What the ledger knows of a dose's storage stands in its notes, in words.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "coldtally/words.hpp"

namespace coldtally {

/// The fields of use of one Immunization resource. Texts are UTF-8.
struct Immunization {
    /// A CodeableConcept: codes of several systems for one thing, and words.
    struct Concept {
        struct Code {
            std::string system, code;  ///< either may be empty
            friend bool operator==(const Code&, const Code&) = default;
        };
        std::vector<Code> codes;
        std::optional<std::string> text;
        friend bool operator==(const Concept&, const Concept&) = default;
    };
    /// An amount: of a vaccine, or a number of doses.
    struct Amount {
        std::optional<std::string> value;  ///< a JSON number, as text
        std::optional<std::string> unit, system, code;
        friend bool operator==(const Amount&, const Amount&) = default;
    };
    struct Protocol {
        std::optional<std::string> series, dose_number;
        friend bool operator==(const Protocol&, const Protocol&) = default;
    };

    std::optional<std::string> id;  ///< 1 to 64 of A-Z a-z 0-9 - .
    std::string status;             ///< completed, entered-in-error or not-done
    std::optional<Concept> status_reason;
    Concept vaccine;
    /// Who was given it: by a token or by where the record of them is. A name is neither read nor written.
    std::optional<std::string> patient_identifier, patient_reference;
    /// When. A date-time has an offset; else it is a date "2018-06-18", "2018-06" or "2018", or words. None of them:
    /// the record says why it is not stated.
    std::optional<std::string> occurrence_date_time, occurrence_text;
    std::optional<std::string> recorded;    ///< date or date-time
    std::optional<bool> primary_source;     ///< false: reported from elsewhere
    std::optional<std::string> location, manufacturer;  ///< their displays
    std::optional<std::string> lot;
    std::optional<std::string> expiration;  ///< "2027-05-31", "2027-05" or "2027"
    std::optional<Amount> dose_quantity;
    std::optional<bool> subpotent;          ///< read only
    std::vector<Concept> subpotent_reasons; ///< read only
    std::vector<Protocol> protocols;        ///< read only
    std::vector<std::string> notes;         ///< written only: those of others may hold names
    /// Something in it changes what it means, and is not understood here (modifierExtension, implicitRules); empty:
    /// nothing.
    std::string modified_by;

    friend bool operator==(const Immunization&, const Immunization&) = default;
};

/// One resource of a text, and where it stands: "line 3", or "line 1: entry 2" of a Bundle.
struct ReadImmunization {
    std::string where;
    Immunization record;
};
struct ReadImmunizations {
    std::vector<ReadImmunization> records;  ///< in the order of the text
    std::vector<Remark> remarks;            ///< what was passed over
};

/// The system of CVX codes; codes keep their leading zeros.
inline constexpr std::string_view cvx_system = "http://hl7.org/fhir/sid/cvx";

/// Reads NDJSON (a resource a line, ends LF or CR LF), one resource over any number of lines, or a Bundle with entries,
/// of which the other resources are passed over. Fields that are not of use may be there, whatever they hold.
/// Code::bad_text, bad_json: not UTF-8, longer than 16 MiB, nested over 32 deep, not JSON; Code::missing_field: status,
/// vaccineCode, patient or occurrence; Code::bad_value: a field of use of the wrong type or form; Code::contradiction:
/// both forms of occurrence. The message names line, entry, field and value.
ReadImmunizations parse_immunizations(std::string_view text);

/// A resource as JSON in one line without blanks between its parts, without line end. Characters that a FHIR string
/// cannot hold become blanks. What is read only is not written.
std::string to_fhir_json(const Immunization& record);

/// A FHIR date or date-time as it is written: years alone, a month, a day, or a time with Z or an offset.
/// Code::bad_value: of no such form, or a day or time that does not exist.
void check_fhir_date(std::string_view text, bool with_time);

}  // namespace coldtally
