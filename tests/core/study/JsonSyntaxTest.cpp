#include "core/study/JsonSyntax.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <string>

namespace earwright {
namespace {

std::string placeOfRefusal(const std::string& text) {
    const auto json = parseJson(text, "a.json");
    return json ? "read" : json.error().where;
}

TEST(JsonSyntax, ReadsWhatRfc8259Allows) {
    for (const char* text :
         {"{}", "[]", " null ", "-0.5e+3", "\"\\u00e9\\ud834\\udd1e\"", "[1,{\"a\":[true]}]"})
        EXPECT_EQ(placeOfRefusal(text), "read") << text;
}

TEST(JsonSyntax, TellsLineAndColumnOfWhatIsBroken) {
    EXPECT_EQ(placeOfRefusal(""), "line 1, column 1");
    EXPECT_EQ(placeOfRefusal("[1,\n 2,\n x]"), "line 3, column 2");
    EXPECT_EQ(placeOfRefusal("{\"a\": 1,}"), "line 1, column 9");
    EXPECT_EQ(placeOfRefusal("[1] 2"), "line 1, column 5");
}

TEST(JsonSyntax, SaysThatAFileBreaksOff) {
    for (const char* text : {"{\"format\": \"st", "{\"notes\": [1, 2", "{\"notes\":"}) {
        const auto read = parseJson(text, "blues.study");
        ASSERT_FALSE(read);
        EXPECT_THAT(read.error().message, testing::HasSubstr("it breaks off in the middle")) << text;
    }
    EXPECT_THAT(parseJson("{notes}", "blues.study").error().message, testing::HasSubstr("not valid JSON"));
}

TEST(JsonSyntax, SaysThatAFileHasNothingInIt) {
    for (const char* text : {"", " \n"}) {
        const auto read = parseJson(text, "blues.study");
        ASSERT_FALSE(read);
        EXPECT_EQ(
            read.error().message,
            "blues.study: there is nothing in it. The file stays as it is; take an earlier copy of it.");
    }
}

TEST(JsonSyntax, RefusesWhatTheStandardDoes) {
    for (const char* text :
         {"NaN", "[Infinity]", "'a'", "[01]", "[1,]", "\"\t\"", "\"\xff\"", "\"\\ud834\"", "// a\n1"})
        EXPECT_NE(placeOfRefusal(text), "read") << text;
}

TEST(JsonSyntax, RefusesAMemberThatStandsTwiceWithItsPath) {
    EXPECT_EQ(placeOfRefusal(R"({"a": [0, {"b": 1, "c": 2, "b": 3}]})"), "a[1].b");
    EXPECT_EQ(placeOfRefusal(R"([{"b": 1}, {"b": 1}])"), "read");
}

TEST(JsonSyntax, RefusesNestingDeeperThanSixtyFour) {
    EXPECT_EQ(placeOfRefusal(std::string(64, '[') + std::string(64, ']')), "read");
    EXPECT_NE(placeOfRefusal(std::string(65, '[') + std::string(65, ']')), "read");
}

} // namespace
} // namespace earwright
