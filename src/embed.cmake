# Builds files into the program: dryfit_embed(target folder...) makes scene::embedded("shaders/timber.frag") and the
# like find them. The assembler reads the files themselves, so they are rebuilt in when they change.
function(dryfit_embed target)
  set(text "// Made by src/embed.cmake.\n#include \"scene/embedded.h\"\n\n#include <iterator>\n\nextern \"C\" {\n")
  set(rows "")
  set(blobs "")
  set(files "")
  set(number 0)
  foreach(folder ${ARGN})
    file(GLOB found CONFIGURE_DEPENDS RELATIVE ${CMAKE_SOURCE_DIR}
      ${folder}/*.vert ${folder}/*.frag ${folder}/*.glsl ${folder}/*.otf ${folder}/*.ttf)
    foreach(name ${found})
      string(APPEND text "extern const char dryfit_blob_${number}[], dryfit_blob_end_${number}[];\n")
      string(APPEND blobs "  \".balign 16\\n.globl dryfit_blob_${number}\\ndryfit_blob_${number}:\\n"
        ".incbin \\\"${CMAKE_SOURCE_DIR}/${name}\\\"\\n"
        ".globl dryfit_blob_end_${number}\\ndryfit_blob_end_${number}:\\n.byte 0\\n\"\n")
      string(APPEND rows "      {\"${name}\", dryfit_blob_${number}, dryfit_blob_end_${number}},\n")
      list(APPEND files ${CMAKE_SOURCE_DIR}/${name})
      math(EXPR number "${number} + 1")
    endforeach()
  endforeach()
  string(APPEND text "}\n\nasm(\".pushsection .rodata\\n\"\n${blobs}  \".popsection\\n\");\n\n"
    "namespace dryfit::scene {\n\n"
    "std::string_view embedded(std::string_view name) {\n"
    "  const struct {\n    std::string_view name;\n    const char *begin, *end;\n  } files[] = {\n${rows}  };\n"
    "  for (const auto& file : files)\n"
    "    if (file.name == name) return {file.begin, static_cast<std::size_t>(file.end - file.begin)};\n"
    "  return {};\n}\n\n}  // namespace dryfit::scene\n")
  set(out ${CMAKE_BINARY_DIR}/embedded.cpp)
  file(CONFIGURE OUTPUT ${out} CONTENT "${text}" @ONLY)
  target_sources(${target} PRIVATE ${out})
  set_source_files_properties(${out} PROPERTIES OBJECT_DEPENDS "${files}" COMPILE_OPTIONS "-fno-lto")
endfunction()
