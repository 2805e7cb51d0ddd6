#include "shop.h"

#include <fstream>

namespace leafwright::test {

Shop::Shop(const std::string& roster, const std::string& run, const std::string& swap,
           const std::string& dates) {
  std::ofstream(path("project.xml"), std::ios::binary)
      << R"(<project xmlns="urn:leafwright:project" version="1" id="p" title="P" date="2027-03-02">
<supplies><stock id="kraft" sheet="letter" weight="80 lb cover" pack="25" price="8"/>
<stamps id="orchard" name="Orchard stamps" price="20" each="80 g"><image id="tree" size="1 x 1"/></stamps>
<ribbon id="twine" width="1/16" spool="100" price="5" each="30 g"/></supplies>
<card id="c" title="C" form="top-fold" size="A2" minutes="10"><base stock="kraft"/></card>
<tier id="full" name="Full kit" price="30" parts="cut"><include item="tutorial"/><include item="parts"/>
<include item="orchard" amount="whole"/>)"
      << swap << R"(</tier>
<tier id="paper" name="Paper kit" price="9"><include item="kraft" amount="2 sheets"/></tier>
<tier id="booklet" name="Tutorial only" price="5" open="anytime" shipping="none"><include item="tutorial"/></tier>
<run of-each="2" roster="roster.csv" wrapping="50 g" )"
      << dates << ">" << run << "</run></project>";
  std::ofstream(path("roster.csv"), std::ios::binary) << roster;
}

Ran Shop::make(const std::string& verb, const std::vector<std::string>& more) const {
  std::vector<std::string> words{verb, path("project.xml"), "-o", path("out")};
  words.insert(words.end(), more.begin(), more.end());
  return run_program(words);
}

} // namespace leafwright::test
