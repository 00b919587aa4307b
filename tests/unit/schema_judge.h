// A schema of assets/schemas as judge, by valijson (JSON Schema draft 7): an outside library.
#pragma once

#include <gtest/gtest.h>

#include <fstream>
#include <nlohmann/json.hpp>
#include <string>
#include <valijson/adapters/nlohmann_json_adapter.hpp>
#include <valijson/schema.hpp>
#include <valijson/schema_parser.hpp>
#include <valijson/validator.hpp>

namespace dryfit {

class SchemaJudge {
 public:
  explicit SchemaJudge(const std::string& name) {
    const std::string path = std::string(DRYFIT_ROOT) + "/assets/schemas/" + name + ".schema.json";
    std::ifstream in(path);
    EXPECT_TRUE(in.good()) << path;
    document_ = nlohmann::json::parse(in);
    const valijson::adapters::NlohmannJsonAdapter adapter(document_);
    valijson::SchemaParser(valijson::SchemaParser::kDraft7).populateSchema(adapter, schema_);
  }
  bool accepts(const nlohmann::json& json, std::string* why = nullptr) const {
    valijson::Validator validator(valijson::Validator::kStrongTypes);
    valijson::ValidationResults results;
    const bool good = validator.validate(schema_, valijson::adapters::NlohmannJsonAdapter(json), &results);
    valijson::ValidationResults::Error error;
    while (why && results.popError(error)) {
      for (const std::string& part : error.context) *why += part;
      *why += ": " + error.description + "\n";
    }
    return good;
  }

 private:
  nlohmann::json document_;
  valijson::Schema schema_;
};

}  // namespace dryfit
