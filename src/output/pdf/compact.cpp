#include "output/pdf/compact.h"

#include <qpdf/QPDF.hh>
#include <qpdf/QPDFWriter.hh>

#include <fmt/format.h>

#include <exception>

namespace leafwright::pdf {

Parsed<std::string> compacted(const std::string& pdf) {
  try {
    QPDF document;
    document.setSuppressWarnings(true);
    document.processMemoryFile("document", pdf.data(), pdf.size());
    QPDFWriter writer(document);
    writer.setOutputMemory();
    writer.setObjectStreamMode(qpdf_o_generate);
    writer.setDeterministicID(true);
    writer.write();
    const auto buffer = writer.getBufferSharedPointer();
    return std::string(reinterpret_cast<const char*>(buffer->getBuffer()), buffer->getSize());
  } catch (const std::exception& error) {
    return Misread{0, 0, fmt::format("the finished PDF could not be packed: {}", error.what()),
                   "a whole document", "write it without packing"};
  }
}

} // namespace leafwright::pdf
