#include "support.h"

using namespace leafwright;
using namespace leafwright::test;

namespace {

using namespace std::string_literals;

// Headers written by hand after ISO/IEC 15948 and ISO/IEC 10918-1; no pixels are needed here.
const std::string png =
    "\x89PNG\r\n\x1a\n\0\0\0\rIHDR\0\0\x01\x40\0\0\0\xF0\x08\x02\0\0\0\0\0\0\0"s;
const std::string jpeg =
    "\xFF\xD8\xFF\xE0\0\x10JFIF\0\x01\x01\0\0\x01\0\x01\0\0\xFF\xC0\0\x11\x08\0\xF0\x01\x40\x03"s +
    std::string(20, '\0');

Reading with_picture(std::string_view name, std::map<std::string, std::string> files) {
  ReadOptions options;
  options.files = memory_files(std::move(files));
  return read_text(
      project_with("<step picture=\"" + std::string(name) + "\" picture-words=\"w\">s</step>"),
      options);
}

} // namespace

TEST_CASE("a picture of the project is read once with its size") {
  for (const std::string& bytes : {png, jpeg}) {
    ReadOptions options;
    options.files = memory_files({{"here/a.png", bytes}});
    const Reading reading =
        read_text(project_with("<step picture=\"a.png\" picture-words=\"w\">s</step>"
                               "<step picture=\"a.png\" picture-words=\"w\">s</step>"),
                  options);
    CHECK(all_text(reading) == "");
    REQUIRE(reading.project.pictures.size() == 1);
    CHECK(reading.project.pictures[0].width_px == 320);
    CHECK(reading.project.pictures[0].height_px == 240);
  }
}

TEST_CASE("a photograph that was taken with the camera on its side is as high as it was wide") {
  // Exif, CIPA DC-008: a TIFF header and one entry, tag 274, of either byte order.
  const std::string big =
      "Exif\0\0MM\0*\0\0\0\x08\0\x01\x01\x12\0\x03\0\0\0\x01\0\x06\0\0\0\0\0\0"s;
  const std::string little =
      "Exif\0\0II*\0\x08\0\0\0\x01\0\x12\x01\x03\0\x01\0\0\0\x08\0\0\0\0\0\0\0"s;
  const auto read = [](const std::string& exif) {
    const auto length = static_cast<char>(exif.size() + 2);
    const std::string bytes = jpeg.substr(0, 2) + "\xFF\xE1\0"s + length + exif + jpeg.substr(2);
    return with_picture("a.jpg", {{"here/a.jpg", bytes}}).project.pictures.at(0);
  };
  CHECK(read(big).orientation == 6);
  CHECK(read(little).orientation == 8);
  CHECK(read(big).width_px == 240);
  CHECK(read(big).height_px == 320);
  CHECK(read("Exif\0\0MM\0*\0\0\0\xFF"s).orientation == 1); // cut short
}

TEST_CASE("a picture that is not there, or is no picture, is a finding at its name") {
  CHECK(codes(with_picture("b.png", {{"here/a.png", png}})) ==
        std::vector<std::string>{"read-no-file"});
  for (const std::string& bytes :
       {""s, "GIF89a"s, png.substr(0, 20), jpeg.substr(0, 24), "\xFF\xD8\xFF"s, png.substr(0, 8)}) {
    CHECK(codes(with_picture("a.png", {{"here/a.png", bytes}})) ==
          std::vector<std::string>{"read-picture"});
  }
}

TEST_CASE("a name that leads out of the project's folder is refused unseen") {
  for (const char* name :
       {"/etc/passwd", "../a.png", "x/../../a.png", "..", "C:/a.png", "a\\b.png", "x/../..", ""}) {
    CAPTURE(name);
    const Reading reading = with_picture(name, {{"here/../a.png", png}, {"/etc/passwd", png}});
    CHECK(has_code(reading, "read-outside"));
    CHECK(reading.project.pictures.empty());
  }
}

TEST_CASE("a link out of the folder is refused, also when its name looks like a neighbour") {
  for (const char* target : {"elsewhere/a.png", "here-too/a.png", "/"}) {
    CAPTURE(target);
    ReadOptions options;
    options.files.read = [](const std::string&, std::size_t) -> FileBytes { return png; };
    options.files.real_path = [&](const std::string& path) {
      return path == "here" ? path : std::string(target);
    };
    const Reading reading =
        read_text(project_with("<step picture=\"a.png\" picture-words=\"w\">s</step>"), options);
    CHECK(codes(reading) == std::vector<std::string>{"read-outside"});
  }
}
