// What each stage of a work costs, and beside it in the same run the plain way: every piece by general
// booleans, each on its own, meshed by the kernel. Timings are noisy, so the table gives ratios to the plain
// way of the same work.
//
//   dryfit_bench                          table on standard output
//   dryfit_bench --benchmark_filter=NONE  only what a whole leaf and whole door sets cost
//   dryfit_bench --benchmark_out=FILE     the same figures as JSON (Google Benchmark's)
#include <benchmark/benchmark.h>
#include <fmt/format.h>

#include <filesystem>
#include <map>

#include "bench/commands.h"
#include "exchange/step.h"
#include "fit/blocks.h"
#include "fit/fit.h"
#include "order/order.h"
#include "solid/solid.h"
#include "support/works.h"

namespace dryfit::tests {
namespace {

using Work = std::shared_ptr<const CutWork>;

void require(bool condition, benchmark::State& state, const char* what) {
  if (!condition) state.SkipWithError(what);
}

void plainWay(benchmark::State& state, const Work& work) {
  for (auto _ : state)
    for (const Piece& p : work->pieces) {
      if (std::holds_alternative<RodBlank>(p.last().recipe.blank) ||
          std::holds_alternative<TurnedBlank>(p.last().recipe.blank))
        continue;
      auto solid = solidByBooleans(carvingOf(p.last().recipe));
      require(solid.ok(), state, "boolean failed");
      if (solid) benchmark::DoNotOptimize(tessellated(solid.value()));
    }
}

/// How a file is cut: whole, or of a door set the leaf alone.
using Cutter = CutWork (*)(const std::string& path);

void cutCold(benchmark::State& state, const std::pair<Cutter, std::string>& file) {
  for (auto _ : state) benchmark::DoNotOptimize(file.first(file.second));
}

/// Recipes cut before: what a change of one size costs for all the pieces it leaves alone.
void cutCached(benchmark::State& state, const Work& work) {
  CutCache cache;
  for (const Piece& p : work->pieces)
    for (const PieceState& s : p.states) require(cache.cut(s.cut->recipe, p.id).ok(), state, "cut failed");
  for (auto _ : state)
    for (const Piece& p : work->pieces)
      for (const PieceState& s : p.states) benchmark::DoNotOptimize(cache.cut(s.cut->recipe, p.id));
}

void meshes(benchmark::State& state, const Work& work) {
  for (auto _ : state)
    for (const Piece& p : work->pieces)
      if (std::holds_alternative<BoxBlank>(p.last().recipe.blank))
        benchmark::DoNotOptimize(planningMesh(carvingOf(p.last().recipe)));
}

void solids(benchmark::State& state, const Work& work) {
  for (auto _ : state)
    for (const Piece& p : work->pieces) benchmark::DoNotOptimize(solidFromShell(p.last().shell));
}

void check(benchmark::State& state, const Work& work) {
  std::vector<Solid> all;
  for (const Piece& p : work->pieces) all.push_back(solidFromShell(p.last().shell).value());
  for (auto _ : state)
    for (const Solid& s : all) benchmark::DoNotOptimize(faultsOf(s));
}

void fitWork(benchmark::State& state, const Work& work) {
  for (auto _ : state) benchmark::DoNotOptimize(fit(work->assembly));
}

void blocks(benchmark::State& state, const Work& work) {
  for (auto _ : state) benchmark::DoNotOptimize(blockTable(work->assembly));
}

void order(benchmark::State& state, const Work& work) {
  for (auto _ : state) benchmark::DoNotOptimize(plan(work->assembly));
}

void step(benchmark::State& state, const Work& work) {
  StepInput input{work->title, work->pieces, work->assembly.units, {}};
  input.stageOf.assign(work->pieces.size(), "work");
  for (auto _ : state) benchmark::DoNotOptimize(stepBytes(input));
}

/// What tells a whole door set's rows from its leaf's. The whole has no plain way of its own: general
/// booleans take a quarter of an hour over its screw holes, so it stands beside the plain way of its leaf.
constexpr std::string_view kWhole = "-whole";

std::string plainWayOf(const std::string& row) {
  std::string name = row.substr(0, row.find('/'));
  if (name.ends_with(kWhole)) name.resize(name.size() - kWhole.size());
  return name;
}

void addWork(const std::string& path, Cutter cut, std::string_view which) {
  const std::string name = std::filesystem::path(path).stem().string() + std::string(which);
  const Work work = std::make_shared<const CutWork>(cut(path));
  auto add = [&](const std::string& stage, auto run, const auto& with) {
    benchmark::RegisterBenchmark((name + "/" + stage).c_str(), [=](benchmark::State& state) {
      run(state, with);
    })->Unit(benchmark::kMillisecond);
  };
  if (which != kWhole) add("plain-way", plainWay, work);
  add("read-and-cut", cutCold, std::pair(cut, path));
  add("cut-cached", cutCached, work);
  add("planning-meshes", meshes, work);
  add("kernel-solids", solids, work);
  add("kernel-check", check, work);
  add("fit", fitWork, work);
  add("blocks", blocks, work);
  add("order", order, work);
  add("step", step, work);
}

/// The usual table, then each stage beside its work's plain way.
class WithRatios : public benchmark::ConsoleReporter {
 public:
  void ReportRuns(const std::vector<Run>& runs) override {
    ConsoleReporter::ReportRuns(runs);
    for (const Run& r : runs)
      if (!r.error_occurred) times_.push_back({r.benchmark_name(), r.GetAdjustedRealTime()});
  }
  void Finalize() override {
    std::map<std::string, double> plain;
    for (const auto& [name, ms] : times_)
      if (name.ends_with("/plain-way")) plain[plainWayOf(name)] = ms;
    GetOutputStream() << fmt::format("\n{:<40} {:>10} {:>16}\n", "stage", "ms", "plain way / this");
    for (const auto& [name, ms] : times_)
      GetOutputStream() << fmt::format("{:<40} {:>10.3f} {:>16.1f}\n", name, ms,
                                       plain[plainWayOf(name)] / ms);
  }

 private:
  std::vector<std::pair<std::string, double>> times_;
};

}  // namespace
}  // namespace dryfit::tests

int main(int argc, char** argv) {
  benchmark::Initialize(&argc, argv);
  if (benchmark::ReportUnrecognizedArguments(argc, argv)) return 2;
  // First: what this process has taken by then counts as its children's peak memory.
  dryfit::tests::reportLeaf(DRYFIT_PROGRAM);
  for (const std::string& path : dryfit::tests::shippedDoorSets())
    dryfit::tests::reportWhole(DRYFIT_PROGRAM, path);
  for (const std::string& path : dryfit::tests::shippedWorks())
    dryfit::tests::addWork(path, dryfit::tests::cutWholeSet, "");
  for (const std::string& path : dryfit::tests::shippedDoorSets()) {
    dryfit::tests::addWork(
        path, [](const std::string& p) { return dryfit::tests::cutFile(p); }, "");
    dryfit::tests::addWork(path, dryfit::tests::cutWholeSet, dryfit::tests::kWhole);
  }
  dryfit::tests::WithRatios table;
  benchmark::RunSpecifiedBenchmarks(&table);
  return 0;
}
