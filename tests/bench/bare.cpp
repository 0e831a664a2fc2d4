#include <yaml-cpp/yaml.h>

// The least a program with these libraries can do with a profile: load it and stop.
int main(int argc, char** argv) {
  if (argc != 2) return 2;
  return YAML::LoadFile(argv[1]).IsMap() ? 0 : 1;
}
