// GS1: what is refused and where the message points; what is taken for a code. Formats, dates and check digits stand in
// tests/published/gs1.txt and are compared with other programs by tests/reference/gs1_test.py. GTINs are of GS1's own
// examples.
#include <catch2/catch.hpp>

#include "coldtally/error.hpp"
#include "coldtally/gs1.hpp"

using namespace coldtally;

namespace {

std::string refusal(const std::string& code, Code with = Code::bad_value) {
    try {
        parse_gs1_scan(code, 2026);
    } catch (const Error& e) {
        CHECK(e.code() == with);
        return e.what();
    }
    FAIL("read: " + code);
    return {};
}

}  // namespace

TEST_CASE("gs1: GTIN, lot, serial and expiry of a code", "[gs1]") {
    const Gs1Scan scan = parse_gs1_scan("]d2010952123454321321S-1\x1D" "1727053110K0123", 2026);
    CHECK(scan.symbology == "]d2");
    CHECK(scan.gtin == "09521234543213");
    CHECK(scan.lot == "K0123");
    CHECK(scan.serial == "S-1");
    CHECK(scan.expiry == "2027-05-31");
    REQUIRE(scan.elements.size() == 4);
    CHECK(scan.elements[1].title == "SERIAL");
    CHECK(scan.elements[3].title == "BATCH/LOT");
}

TEST_CASE("gs1: a day of 00 stays a month; an hour of expiry is told", "[gs1]") {
    CHECK(parse_gs1_scan("(17)270500", 2026).expiry == "2027-05");
    CHECK(parse_gs1_scan("(7003)2705311200", 2026).expiry == std::nullopt);
    CHECK(parse_gs1_scan("(17)270531(7003)2705311200", 2026).expiry == "2027-05-31");
    CHECK(parse_gs1_scan("(17)270531(7003)2705311200", 2026).expires_at_an_hour);
    CHECK_FALSE(parse_gs1_scan("(17)270531", 2026).expires_at_an_hour);
    CHECK(refusal("(7003)2705312400").find("hhmm") != std::string::npos);
    CHECK(refusal("(7003)2705001200").find("must be a date, YYMMDD") != std::string::npos);
}

TEST_CASE("gs1: a refusal names the position, the identifier, the value and what would be right", "[gs1]") {
    CHECK(refusal("]d201095212345432131799") == "scan: position 20: (17) \"99\": is too short: must have 6 digits");
    CHECK(refusal("(01)09521234543214") ==
          "scan: position 1: (01) \"09521234543214\": its check digit is wrong: scan it again, or read the number from "
          "the box");
    CHECK(refusal("(17)270532").find("must be a date, YYMMDD, with day 00 for a month's last") != std::string::npos);
    CHECK(refusal("(10)A#1").find("must be of the 82 characters of GS1") != std::string::npos);
    CHECK(refusal("(8010)a").find("39 characters") != std::string::npos);
    CHECK(refusal("(8030)a+").find("A-Z, a-z, 0-9") != std::string::npos);
    CHECK(refusal("(30)1x").find("must be digits") != std::string::npos);
    CHECK(refusal("(10)123456789012345678901").find("too long by 1") != std::string::npos);
    CHECK(refusal("(421)04").find("must have 3 digits") != std::string::npos);
    CHECK(refusal("(421)040").find("must have 1 to 9 characters more") != std::string::npos);
    CHECK(refusal("(3106)000000").find("is no application identifier that is assigned") != std::string::npos);
    CHECK(refusal("]d2040000").find("begins with no application identifier that is assigned") != std::string::npos);
    CHECK(refusal("(10)A(10)B", Code::contradiction).find("stated before as \"A\"") != std::string::npos);
    CHECK(refusal("").find("must be the text of a code") != std::string::npos);
    CHECK(refusal(std::string(8193, '1')).find("8192") != std::string::npos);
    CHECK(refusal("\x1D").find("the code is empty") != std::string::npos);
    CHECK(refusal("]C0123").find("is not read here") != std::string::npos);
    CHECK(refusal("]E0952123454321").find("13 digits") != std::string::npos);
}

TEST_CASE("gs1: what the standard permits is read", "[gs1]") {
    CHECK(parse_gs1_scan("(10)A(10)A", 2026).elements.size() == 1);
    CHECK(parse_gs1_scan("(10)A\\(B)", 2026).lot == "A(B)");
    CHECK(parse_gs1_scan("]d217270531\x1D" "10A\x1D", 2026).elements.size() == 2);  // a separator that is not needed
    CHECK(parse_gs1_scan("(253)9521234543213", 2026).elements.size() == 1);          // its serial component is optional
    CHECK(parse_gs1_scan("(3105)000001", 2026).elements.size() == 1);
    CHECK(parse_gs1_scan("]E495200002", 2026).gtin ==
          "00000095200002");  // by the rule of the check digit, worked by hand
}

TEST_CASE("gs1: GTINs of every length as 14 digits", "[gs1]") {
    CHECK(gtin_14("9521234543213") == "09521234543213");
    CHECK(gtin_14("036000241457") == "00036000241457");
    CHECK(gtin_14("12312312312333") == "12312312312333");
    for (const char* not_one : {"", "9521234543214", "952123454321", "x521234543213", "123456789012345"})
        CHECK(gtin_14(not_one) == std::nullopt);
}

TEST_CASE("gs1: what is taken for a code, and what for a lot's number", "[gs1]") {
    for (const char* code : {"]d2010952", "(01)09521234543213", "(10)A", "(17)270531",
                             "0109521234543213"
                             "10A",
                             "\x1D"
                             "0109521234543213"
                             "10A",
                             "1727053110A\x1D"
                             "21B",
                             " ]d210A\r\n"}) {
        INFO(code);
        CHECK(is_gs1_scan(code));
    }
    for (const char* lot :
         {"", "K0123", "]", "]d", "]XX0", "(A)1", "(99999)1", "(3106)000000", "0109521234543213", "010952123454321410A",
          "01A9521234543213"
          "10"}) {
        INFO(lot);
        CHECK_FALSE(is_gs1_scan(lot));
    }
}

TEST_CASE("gs1: no bytes that no code holds, and no identifiers that are not digits", "[gs1]") {
    for (const char* code : {"]d232Z5123456", "]d232:5123456",
                             "]d2329\xC3\xA9"
                             "123456",
                             "]d210A\xC3", "]d210\x7F", "(32Z5)123456"}) {
        INFO(code);
        CHECK_FALSE(refusal(code).empty());
    }
    CHECK(refusal("(10)\xC3\xA9") == "scan: holds a character that no GS1 code holds");
}

TEST_CASE("gs1: digits alone are a GTIN; a carton's content stands for it; ends are left out", "[gs1]") {
    CHECK(parse_gs1_scan("9521234543213", 2026).gtin == "09521234543213");
    CHECK(parse_gs1_scan("036000241457", 2026).gtin == "00036000241457");
    CHECK(parse_gs1_scan("(02)09521234543213(37)20", 2026).gtin == "09521234543213");
    CHECK(parse_gs1_scan("(02)12312312312333(01)09521234543213", 2026).gtin == "09521234543213");
    CHECK(parse_gs1_scan(" ]d210K0123\r\n", 2026).lot == "K0123");
}

TEST_CASE("gs1: a lot that may have run into what follows is told", "[gs1]") {
    CHECK(parse_gs1_scan("]d210K-22171S-1", 2026).perhaps == "K-2 (21)71S-1");
    CHECK(parse_gs1_scan("]d210K-317270531", 2026).perhaps == "K-3 (17)270531");
    CHECK(parse_gs1_scan("]d221S10K-2", 2026).perhaps == "S (10)K-2");
    for (const char* sure : {"]d210K-2171S\x1D" "2171S-1", "(10)K-22171S-1", "]d210K0123", "]d210K17273131"}) {
        INFO(sure);
        CHECK(parse_gs1_scan(sure, 2026).perhaps.empty());
    }
}
