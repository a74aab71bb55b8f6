// SPDX-License-Identifier: MIT
// What a file may not do to this machine when GDAL opens it: fetch something over the network, or unpack without end.
#pragma once

#include "read/input_files.hpp"

namespace quartercut::reading {

/// From here on GDAL, in this whole process, fetches nothing over a network, whatever a file or the environment says.
void close_network();

/// How GDAL names the inside of an archive: in braces whatever its ending, or, since they must pair up, without them where
/// the path itself has some.
[[nodiscard]] std::string archive_root(const FoundFile& file);

/// \throws InputError  the archive holds far more files, or unpacks to far more bytes, than records of a farm do
void refuse_bottomless_archive(const FoundFile& file);

} // namespace quartercut::reading
