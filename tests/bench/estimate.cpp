#include "plan/estimate.hpp"

#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <thread>

// Simulates works as their balls come: `bench_estimate WORKS` prints seconds, the mean waste in cm and the mean count
// of balls, for numpy_estimate.py to hold against its own.
int main(int argc, char** argv) {
  using namespace ballchange;
  plan::Work work;
  work.needed = 148'000_cm;
  work.period = 276_cm;
  work.allowance = 8_cm;
  work.tolerance = Length::cm(3.7);
  work.ball = 12'500_cm;
  const plan::Simulation simulation{1, std::thread::hardware_concurrency(), {}, argc > 1 ? std::atoll(argv[1]) : 1};
  const auto start = std::chrono::steady_clock::now();
  const plan::WayEstimate told = plan::simulate_as_they_come(work, simulation);
  const std::chrono::duration<double> took = std::chrono::steady_clock::now() - start;
  std::printf("%.6f %.4f %.6f\n", took.count(), told.waste.mean.cm(), told.balls.mean);
}
