// Rotation, speed and acceleration of every shaft of spatial chains of universal joints, from Simbody.
//
//	chains              solves the random chains and writes them as CSV
//	chains FILE         solves the chains of such a CSV file once more
//	chains --time       prints how long a position takes
#include <charconv>
#include <chrono>
#include <cstdint>
#include <fstream>
#include <iostream>
#include <random>
#include <sstream>
#include <stdexcept>

#include "mechanism.h"

namespace {

constexpr int positions = 24;

// The same numbers on every machine: the standard fixes this engine, but not its distributions.
class Tenths {
public:
    double within(double limit_deg) {
        const auto span = std::uint64_t(20 * limit_deg) + 1;
        return (double(engine() % span) - 10 * limit_deg) / 10;
    }

private:
    std::mt19937_64 engine{20};
};

double largestWorkingAngleDeg(const Chain& chain) {
    double largest = 0;
    for (std::size_t k = 1; k < chain.shafts(); k++) {
        const SimTK::Vec3 u(chain.axis(k - 1)), v(chain.axis(k));
        largest = std::max(largest, std::atan2(cross(u, v).norm(), dot(u, v)));
    }
    return largest * 180 / SimTK::Pi;
}

Chain randomChain(const std::string& name, std::size_t shafts, double slope_deg, Tenths& tenths) {
    Chain chain{name, {}, {}, {}};
    for (std::size_t k = 0; k < shafts; k++) {
        chain.down_deg.push_back(tenths.within(slope_deg));
        chain.right_deg.push_back(tenths.within(slope_deg));
    }
    for (std::size_t k = 2; k < shafts; k++) chain.phase_deg.push_back(tenths.within(90));
    return chain;
}

std::vector<Chain> randomChains() {
    Tenths tenths;
    std::vector<Chain> chains;
    int number = 0;
    for (std::size_t shafts : {2, 2, 3, 3, 3, 4, 4, 4, 5, 5, 5, 6, 6, 7, 7, 8, 8})
        chains.push_back(randomChain("chain" + std::to_string(++number), shafts, 12, tenths));

    number = 0;
    for (std::size_t shafts : {2, 2, 3, 3, 4, 4, 5}) {
        Chain chain;
        do chain = randomChain("steep" + std::to_string(number + 1), shafts, 25, tenths);
        while (largestWorkingAngleDeg(chain) < 30 || largestWorkingAngleDeg(chain) > 42);
        number++;
        chains.push_back(chain);
    }
    return chains;
}

std::string shortest(double value) {
    char text[32];
    return {text, std::to_chars(text, text + sizeof text, value + 0.0).ptr};
}

std::string list(const std::vector<double>& values) {
    std::string text;
    for (double value : values) text += (text.empty() ? "" : ";") + shortest(value);
    return text;
}

std::vector<double> parseList(const std::string& text) {
    std::vector<double> values;
    std::istringstream in(text);
    for (std::string value; std::getline(in, value, ';');) values.push_back(std::stod(value));
    return values;
}

// The chains of a CSV file of this program, in the order in which they first appear.
std::vector<Chain> readChains(const std::string& path) {
    std::ifstream in(path);
    if (!in) throw std::runtime_error(path + ": cannot be read");
    std::vector<Chain> chains;
    std::string line;
    std::getline(in, line);
    while (std::getline(in, line)) {
        std::istringstream row(line);
        std::string name, down, right, phase;
        for (std::string* field : {&name, &down, &right, &phase}) std::getline(row, *field, ',');
        if (!chains.empty() && chains.back().name == name) continue;
        chains.push_back({name, parseList(down), parseList(right), parseList(phase)});
    }
    return chains;
}

void write(const std::vector<Chain>& chains) {
    std::cout << "case,down_deg,right_deg,phase_deg,theta_deg,shaft,rotation_deg,ratio,accel_per_speed2\n";
    for (const Chain& chain : chains) {
        Mechanism mechanism(chain);
        const std::string input = chain.name + "," + list(chain.down_deg) + "," + list(chain.right_deg) + "," +
                                  list(chain.phase_deg);
        for (int i = 0; i < positions; i++) {
            const double theta_deg = 360.0 * i / positions;
            const std::vector<Turning>& turning = mechanism.moveTo(radians(theta_deg));
            for (std::size_t k = 0; k < turning.size(); k++)
                std::cout << input << "," << theta_deg << "," << k + 1 << ","
                          << shortest(turning[k].rotation_rad * (180 / SimTK::Pi)) << ","
                          << shortest(turning[k].speed) << "," << shortest(turning[k].accel) << "\n";
        }
    }
}

// A position counts from one Newton solve to the next: position, velocity and acceleration of all shafts.
void printTimes() {
    constexpr int steps = 720, rounds = 5;
    Tenths tenths;
    for (std::size_t joints : {1, 3, 8}) {
        Mechanism mechanism(randomChain("timed", joints + 1, 8, tenths));
        double best = SimTK::Infinity;
        for (int round = 0; round < rounds; round++) {
            const auto start = std::chrono::steady_clock::now();
            for (int i = 0; i < steps; i++) mechanism.solve(2 * SimTK::Pi * (round + double(i) / steps));
            const std::chrono::duration<double, std::micro> took = std::chrono::steady_clock::now() - start;
            best = std::min(best, took.count() / steps);
        }
        std::cout << "joints=" << joints << " us_per_position=" << best << " ns_per_joint_and_position="
                  << 1000 * best / joints << "\n";
    }
}

}  // namespace

int main(int argc, char** argv) {
    try {
        const std::string argument = argc > 1 ? argv[1] : "";
        if (argument == "--time")
            printTimes();
        else
            write(argument.empty() ? randomChains() : readChains(argument));
    } catch (const std::exception& e) {
        std::cerr << "chains: " << e.what() << "\n";
        return 1;
    }
}
