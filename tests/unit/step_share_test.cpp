// Equal values of a Part 21 file become one instance; whoever is somebody stays. Strings come through reading
// and writing as they are.
#include "exchange/detail/step_share.h"

#include <gtest/gtest.h>

#include <set>
#include <sstream>

#include "support/part21.h"
#include "support/step_sample.h"

namespace dryfit::tests {
namespace {

using detail::fileOf;
using detail::Statement;
using detail::statementsOf;

std::string shared(const std::string& file) {
  std::vector<Statement> statements = statementsOf(file);
  detail::shareEqual(statements);
  return fileOf(statements);
}

/// In lines, as a file has its instances.
std::string lines(const std::vector<std::string>& statements) {
  std::string out;
  for (const std::string& s : statements) out += s + ";\n";
  return out;
}

TEST(ShareEqual, EqualPointsAreOneAndSoIsWhatIsMadeOfThem) {
  EXPECT_EQ(
      shared(lines({"#1 = LINE('',#2,#3)", "#2 = CARTESIAN_POINT('',(0.,1.5,2.))", "#3 = VECTOR('',#4,1.)",
                    "#4 = DIRECTION('',(1.,0.,0.))", "#5 = LINE('',#6,#7)",
                    "#6 = CARTESIAN_POINT('',(0.,1.5,2.))", "#7 = VECTOR('',#8,1.)",
                    "#8 = DIRECTION('',(1.,0.,0.))", "#9 = PLANE('',#10)",
                    "#10 = AXIS2_PLACEMENT_3D('',#11,#12,#13)", "#11 = CARTESIAN_POINT('',(0.,1.5,2.))",
                    "#12 = DIRECTION('',(0.,0.,1.))", "#13 = DIRECTION('',(1.,0.,0.))",
                    "#14 = EDGE_CURVE('',#20,#20,#5,.T.)", "#20 = VERTEX_POINT('',#6)"})),
      lines({"#1=LINE('',#2,#3)", "#2=CARTESIAN_POINT('',(0.,1.5,2.))", "#3=VECTOR('',#4,1.)",
             "#4=DIRECTION('',(1.,0.,0.))", "#5=PLANE('',#6)", "#6=AXIS2_PLACEMENT_3D('',#2,#7,#4)",
             "#7=DIRECTION('',(0.,0.,1.))", "#8=EDGE_CURVE('',#9,#9,#1,.T.)", "#9=VERTEX_POINT('',#2)"}));
}

TEST(ShareEqual, NothingIsRounded) {
  const std::string near =
      lines({"#1=CARTESIAN_POINT('',(0.,0.,47.5))", "#2=CARTESIAN_POINT('',(0.,0.,47.500000000001))",
             "#3=CARTESIAN_POINT('other',(0.,0.,47.5))"});
  EXPECT_EQ(shared(near), near);
}

TEST(ShareEqual, VerticesEdgesAndFacesStayTheirOwn) {
  const std::string twins =
      lines({"#1=CARTESIAN_POINT('',(0.,0.,0.))", "#2=VERTEX_POINT('',#1)", "#3=VERTEX_POINT('',#1)",
             "#4=EDGE_CURVE('',#2,#3,#6,.T.)", "#5=EDGE_CURVE('',#2,#3,#6,.T.)", "#6=CIRCLE('',#7,2.)",
             "#7=AXIS2_PLACEMENT_3D('',#1,$,$)", "#8=ORIENTED_EDGE('',*,*,#4,.T.)",
             "#9=ORIENTED_EDGE('',*,*,#4,.T.)", "#10=ADVANCED_FACE('',(#8),#12,.T.)",
             "#11=ADVANCED_FACE('',(#8),#12,.T.)", "#12=PLANE('',#7)", "#13=PRODUCT('a','a','',(#15))",
             "#14=PRODUCT('a','a','',(#15))", "#15=PRODUCT_CONTEXT('',#16,'mechanical')",
             "#16=APPLICATION_CONTEXT('')"});
  EXPECT_EQ(shared(twins), twins);
}

TEST(ShareEqual, PlacementsOfPiecesAndContextsStayTheirOwn) {
  const std::string twins =
      lines({"#1=CARTESIAN_POINT('',(0.,0.,0.))", "#2=AXIS2_PLACEMENT_3D('',#1,$,$)",
             "#3=AXIS2_PLACEMENT_3D('',#1,$,$)", "#4=ITEM_DEFINED_TRANSFORMATION('','',#5,#2)",
             "#5=AXIS2_PLACEMENT_3D('',#1,$,$)", "#6=SHAPE_REPRESENTATION('',(#2,#3),#7)",
             "#7=(GEOMETRIC_REPRESENTATION_CONTEXT(3)REPRESENTATION_CONTEXT('',''))",
             "#8=(GEOMETRIC_REPRESENTATION_CONTEXT(3)REPRESENTATION_CONTEXT('',''))",
             "#9=REPRESENTATION('centroid',(#10),#8)", "#10=CARTESIAN_POINT('centre',(1.,0.,0.))",
             "#11=CARTESIAN_POINT('centre',(1.,0.,0.))", "#12=REPRESENTATION('centroid',(#11),#8)"});
  EXPECT_EQ(shared(twins), twins);
}

/// With all it refers to written out in its place, so that numbers say nothing.
std::string saidBy(const part21::File& file, const part21::Value& value);

std::string saidBy(const part21::File& file, const part21::Instance& instance) {
  std::string out;
  for (const part21::Record& record : instance) {
    out += record.type + "(";
    for (const part21::Value& v : record.arguments) out += saidBy(file, v) + ",";
    out += ")";
  }
  return out;
}

std::string saidBy(const part21::File& file, const part21::Value& value) {
  if (value.kind == part21::Value::Kind::Reference) return saidBy(file, file.data.at(value.reference));
  std::ostringstream out;
  out.precision(17);
  out << static_cast<int>(value.kind) << value.text << "/" << value.number << "[";
  for (const part21::Value& v : value.items) out << saidBy(file, v) << ",";
  out << "]";
  return out.str();
}

std::multiset<std::string> saidByAll(const part21::File& file, const std::string& type) {
  std::multiset<std::string> said;
  for (int id : file.all(type)) said.insert(saidBy(file, file.data.at(id)));
  return said;
}

TEST(ShareEqual, OfAFileSaidTwiceSolidsStandTwiceAndSayTheSame) {
  const Result<std::string> bytes = stepBytes(stepSample());
  ASSERT_TRUE(bytes.ok());
  EXPECT_EQ(shared(bytes.value()), bytes.value());  // what is shared already stays
  std::vector<Statement> twice, once = statementsOf(bytes.value());
  constexpr int kFar = 100000;
  for (const Statement& s : once) {
    twice.push_back(s);
    if (s.number)
      twice.push_back({s.number + kFar, detail::renumbered(s.words, [](int n) { return n + kFar; })});
  }
  detail::shareEqual(twice);
  const part21::File before = part21::parse(bytes.value()), after = part21::parse(fileOf(twice));
  for (const std::string type :
       {"MANIFOLD_SOLID_BREP", "PRODUCT", "NEXT_ASSEMBLY_USAGE_OCCURRENCE", "ITEM_DEFINED_TRANSFORMATION",
        "STYLED_ITEM", "VERTEX_POINT", "EDGE_CURVE"}) {
    const std::multiset<std::string> was = saidByAll(before, type);
    std::multiset<std::string> expected = was;
    expected.insert(was.begin(), was.end());
    EXPECT_EQ(saidByAll(after, type), expected) << type;
  }
  for (const std::string type : {"DIRECTION", "VECTOR", "LINE", "PLANE", "CIRCLE", "COLOUR_RGB"}) {
    const std::multiset<std::string> said = saidByAll(after, type);
    EXPECT_EQ(said, saidByAll(before, type)) << type;
    EXPECT_EQ(std::set<std::string>(said.begin(), said.end()).size(), said.size()) << type;
  }
}

TEST(Statements, LoseBlanksAndLineEndsOutsideStringsOnly) {
  EXPECT_EQ(fileOf(statementsOf("#1 = ( A(3) \nB('x  y')\r\n C($,\n  *) );\n#2 = D(\n  'a ; #3 = b',#1);\n")),
            "#1=(A(3)B('x  y')C($,*));\n#2=D('a ; #3 = b',#1);\n");
}

TEST(Statements, StringsComeThroughAsTheyAre) {
  for (const std::string text : {"", "''", "a''b", "'''';", "#7", "a, (b) c;", "\\X2\\00FC\\X0\\", "\\\\",
                                 "=#1;", "''#2''", " blanks  kept ", "/* no comment */"}) {
    SCOPED_TRACE(text);
    const std::string file = "#1=A('" + text + "',#2,'" + text + "');\n#2=B('');\n";
    EXPECT_EQ(fileOf(statementsOf(file)), file);
    const std::vector<Statement> read = statementsOf(file);
    ASSERT_EQ(read.size(), 2u);
    EXPECT_EQ(detail::referencesOf(read[0].words), (std::vector<int>{2}));
    EXPECT_EQ(detail::renumbered(read[0].words, [](int n) { return n + 40; }),
              "A('" + text + "',#42,'" + text + "')");
  }
}

TEST(Statements, StringsBrokenByTheKernelAreWholeAgain) {
  // The kernel breaks a line after 72 characters, be it between the two apostrophes that stand for one.
  EXPECT_EQ(fileOf(statementsOf("#1 = A(\n'it'\n's a \n b''\n\n',\n  #2);\n#2 = B();\n")),
            "#1=A('it''s a  b''',#2);\n#2=B();\n");
}

TEST(Statements, LinesEndBetweenValuesBefore72) {
  std::string list = "#1=A((#1";
  for (int i = 0; i < 60; ++i) list += ",#1";
  const std::string longText(100, 'x');
  const std::string file = fileOf(statementsOf(list + "),'" + longText + "','y');"));
  std::istringstream in(file);
  std::string line, whole;
  for (int count = 0; std::getline(in, line); ++count) {
    EXPECT_TRUE(line.size() <= 72 || line == "'" + longText + "',") << line;
    whole += line;
  }
  EXPECT_EQ(whole, list + "),'" + longText + "','y');");
  EXPECT_EQ(fileOf(statementsOf(file)), file);
}

}  // namespace
}  // namespace dryfit::tests
