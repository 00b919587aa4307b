// What each stage of a work costs, and beside it in the same run the plain way: every piece by general
// booleans, each on its own, meshed by the kernel. Timings are noisy, so the table gives ratios to the plain
// way of the same work.
//
//   dryfit_bench                          table on standard output
//   dryfit_bench --benchmark_filter=NONE  only what a whole leaf costs
//   dryfit_bench --benchmark_out=FILE     the same figures as JSON (Google Benchmark's)
#include <benchmark/benchmark.h>
#include <fmt/format.h>

#include <filesystem>
#include <map>

#include "bench/leaf.h"
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

void cutCold(benchmark::State& state, const std::string& path) {
  for (auto _ : state) benchmark::DoNotOptimize(cutFile(path));
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

void addWork(const std::string& path) {
  const std::string name = std::filesystem::path(path).stem().string();
  const Work work = std::make_shared<const CutWork>(cutFile(path));
  auto add = [&](const std::string& stage, auto run, const auto& with) {
    benchmark::RegisterBenchmark((name + "/" + stage).c_str(), [=](benchmark::State& state) {
      run(state, with);
    })->Unit(benchmark::kMillisecond);
  };
  add("plain-way", plainWay, work);
  add("read-and-cut", cutCold, path);
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
      if (name.ends_with("/plain-way")) plain[name.substr(0, name.find('/'))] = ms;
    GetOutputStream() << fmt::format("\n{:<40} {:>10} {:>16}\n", "stage", "ms", "plain way / this");
    for (const auto& [name, ms] : times_)
      GetOutputStream() << fmt::format("{:<40} {:>10.3f} {:>16.1f}\n", name, ms,
                                       plain[name.substr(0, name.find('/'))] / ms);
  }

 private:
  std::vector<std::pair<std::string, double>> times_;
};

}  // namespace
}  // namespace dryfit::tests

int main(int argc, char** argv) {
  benchmark::Initialize(&argc, argv);
  if (benchmark::ReportUnrecognizedArguments(argc, argv)) return 2;
  for (const std::string& path : dryfit::tests::shippedWorks()) dryfit::tests::addWork(path);
  for (const std::string& path : dryfit::tests::shippedDoorSets()) dryfit::tests::addWork(path);
  dryfit::tests::WithRatios table;
  benchmark::RunSpecifiedBenchmarks(&table);
  dryfit::tests::reportLeaf(DRYFIT_PROGRAM);
  return 0;
}
