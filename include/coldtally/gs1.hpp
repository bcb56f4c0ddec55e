// GS1: what a scanner reads of the code on a box, by the GS1 General Specifications: element strings, GTINs, dates.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace coldtally {

/// What a code on a box says. It is the maker's label and nothing more: whether the box holds it, nobody has checked.
struct Gs1Scan {
    std::string symbology;  ///< as transmitted, "]d2"; empty where the scanner sent none
    struct Element {
        std::string ai;     ///< application identifier, "17"
        std::string title;  ///< its data title, "USE BY OR EXPIRY"; empty where it is none of those used here
        std::string value;  ///< as in the code
    };
    std::vector<Element> elements;  ///< in the order of the code
    std::optional<std::string>
        gtin;  ///< of the box (01), else of what is in it (02): 14 digits, with leading zeros where it is shorter
    std::optional<std::string> lot, serial;
    /// As Lot::expiry. A day of 00 means the month's last day, and is kept as the month: "2027-05".
    std::optional<std::string> expiry;
    bool expires_at_an_hour = false;  ///< (7003) is stated, too: an expiry that a lot of a ledger cannot have
    /// Lot or serial number hold what reads like a further element, and no separator was sent: the printed form, such
    /// as "K-2 (21)1S"; empty where there is no doubt.
    std::string perhaps;
};

/// Is it what a scanner sends, and no lot's number: it begins with a symbology identifier (ISO/IEC 15424), or with an
/// assigned application identifier in brackets, or with 01 and a GTIN whose check digit is right and is followed by
/// more; or holds GS.
bool is_gs1_scan(std::string_view text) noexcept;

/// Reads what a scanner sends: a symbology identifier or none, then element strings, those of no predefined length
/// ended by GS (0x1D); or the form printed beneath a code, "(01)09521234543213(17)250101(10)ABC123", in which "\(" is a
/// bracket of a value. The code of EAN-8, EAN-13 and UPC (]E0, ]E4; or 12 to 14 digits alone with a right check digit)
/// gives a GTIN. Blanks and line ends around it, which scanners add, are left out. `this_year`: the year from which two
/// digits are understood, 49 years back to 50 ahead (GS1 General Specifications, 7.12). Code::bad_value: no GS1 data,
/// an application identifier that is not assigned, a value of the wrong length, characters, check digit or date;
/// Code::contradiction: one identifier twice, with different values. The message names the position. What is read is
/// what was sent: a scanner that leaves out GS runs a lot into what follows it (`perhaps`).
Gs1Scan parse_gs1_scan(std::string_view text, int this_year);

/// A GTIN of 8, 12, 13 or 14 digits as 14 digits; none where it is of another form, or its check digit is wrong.
std::optional<std::string> gtin_14(std::string_view gtin);

}  // namespace coldtally
