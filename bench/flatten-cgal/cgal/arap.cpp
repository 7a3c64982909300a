// Flattens a mesh by CGAL's as-rigid-as-possible parameterizer with a free
// border, everything at its defaults, and says how long the best of some runs
// took.
//
//   arap mesh.off flat.txt runs
//
// flat.txt gets one line "x y" a vertex, in the mesh's order; standard error
// gets the seconds of the fastest run, without reading and writing.

#include <CGAL/Simple_cartesian.h>
#include <CGAL/Surface_mesh.h>
#include <CGAL/Surface_mesh_parameterization/ARAP_parameterizer_3.h>
#include <CGAL/Surface_mesh_parameterization/parameterize.h>
#include <CGAL/Polygon_mesh_processing/measure.h>

#include <algorithm>
#include <chrono>
#include <cstdlib>
#include <fstream>
#include <iomanip>
#include <iostream>

using Kernel = CGAL::Simple_cartesian<double>;
using Mesh = CGAL::Surface_mesh<Kernel::Point_3>;
using Vertex = boost::graph_traits<Mesh>::vertex_descriptor;
using Halfedge = boost::graph_traits<Mesh>::halfedge_descriptor;
namespace SMP = CGAL::Surface_mesh_parameterization;

int main(int argc, char **argv) {
  if (argc != 4) {
    std::cerr << "usage: arap mesh.off flat.txt runs\n";
    return 2;
  }
  Mesh mesh;
  std::ifstream in(argv[1]);
  if (!(in >> mesh) || mesh.number_of_faces() == 0) {
    std::cerr << argv[1] << " holds no mesh\n";
    return 1;
  }
  auto flat = mesh.add_property_map<Vertex, Kernel::Point_2>("v:flat").first;
  double best = 1e300;
  for (int run = std::atoi(argv[3]); run > 0; --run) {
    auto from = std::chrono::steady_clock::now();
    Halfedge border = CGAL::Polygon_mesh_processing::longest_border(mesh).first;
    SMP::ARAP_parameterizer_3<Mesh> arap;
    SMP::Error_code wrong = SMP::parameterize(mesh, arap, border, flat);
    std::chrono::duration<double> took = std::chrono::steady_clock::now() - from;
    if (wrong != SMP::OK) {
      std::cerr << SMP::get_error_message(wrong) << "\n";
      return 1;
    }
    best = std::min(best, took.count());
  }
  std::ofstream out(argv[2]);
  out << std::setprecision(17);
  for (Vertex v : mesh.vertices())
    out << flat[v].x() << ' ' << flat[v].y() << '\n';
  std::cerr << best << "\n";
  return out ? 0 : 1;
}
