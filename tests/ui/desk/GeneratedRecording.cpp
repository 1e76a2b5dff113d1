#include "tests/ui/desk/GeneratedRecording.h"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <fstream>
#include <numbers>

namespace earwright::ui {

namespace {

constexpr int rate = 22050;
constexpr int partials = 6;

void add(std::vector<float>& samples, const GeneratedTone& tone) {
    const double frequency = 440.0 * std::exp2((tone.midi - 69 + tone.cents / 100) / 12.0); // equal temperament, ISO 16
    const auto first = static_cast<std::size_t>(tone.onset * rate);
    const auto count = static_cast<std::size_t>(tone.length * rate);
    for (std::size_t i = 0; i < count && first + i < samples.size(); ++i) {
        const double t = static_cast<double>(i) / rate;
        const double attack = std::min(t / 0.004, 1.0);
        const double release = std::min((tone.length - t) / 0.02, 1.0);
        double value = 0;
        for (int k = 1; k <= partials; ++k)
            value += std::sin(2 * std::numbers::pi * frequency * k * t) / (k * k) * std::exp(-t * k);
        samples[first + i] += static_cast<float>(0.35 * attack * release * value);
    }
}

template <class Number>
void put(std::ofstream& out, Number value) {
    for (std::size_t byte = 0; byte < sizeof value; ++byte)
        out.put(static_cast<char>(static_cast<std::uint32_t>(value) >> (8 * byte) & 0xFF));
}

} // namespace

void writeRecording(const std::filesystem::path& path, double seconds,
                    const std::vector<GeneratedTone>& tones) {
    std::vector<float> samples(static_cast<std::size_t>(seconds * rate));
    for (const GeneratedTone& tone : tones)
        add(samples, tone);
    const auto bytes = static_cast<std::uint32_t>(samples.size() * 2);
    std::ofstream out(path, std::ios::binary);
    out << "RIFF";
    put<std::uint32_t>(out, 36 + bytes);
    out << "WAVEfmt ";
    put<std::uint32_t>(out, 16);
    put<std::uint16_t>(out, 1); // PCM
    put<std::uint16_t>(out, 1); // mono
    put<std::uint32_t>(out, rate);
    put<std::uint32_t>(out, rate * 2);
    put<std::uint16_t>(out, 2);
    put<std::uint16_t>(out, 16);
    out << "data";
    put<std::uint32_t>(out, bytes);
    for (const float sample : samples)
        put<std::int16_t>(out,
                          static_cast<std::int16_t>(std::lround(std::clamp(sample, -1.0F, 1.0F) * 32767)));
}

} // namespace earwright::ui
