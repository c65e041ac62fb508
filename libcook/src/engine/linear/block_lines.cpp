#include "engine/linear/block_lines.hpp"

#include "engine/arithmetic/vector_clones.hpp"

namespace cook::engine {

COOK_VECTOR_CLONES
void BlockLines::factorise_shifted(double shift) {
  const std::size_t w = lines_;
  for (std::size_t j = 0; j < length_; ++j) {
    const std::size_t at = j * w;
    const double *da = &diagonal.entry[0][at];
    const double *db = &diagonal.entry[1][at];
    const double *dc = &diagonal.entry[2][at];
    const double *dd = &diagonal.entry[3][at];
    double *__restrict__ va = &inverse_.entry[0][at];
    double *__restrict__ vb = &inverse_.entry[1][at];
    double *__restrict__ vc = &inverse_.entry[2][at];
    double *__restrict__ vd = &inverse_.entry[3][at];
    if (j == 0) {
      COOK_INDEPENDENT
      for (std::size_t l = 0; l < w; ++l) {
        const double a = shift - da[l];
        const double d = shift - dd[l];
        const double scale = 1.0 / (a * d - db[l] * dc[l]);
        va[l] = d * scale;
        vb[l] = db[l] * scale;
        vc[l] = dc[l] * scale;
        vd[l] = a * scale;
      }
      continue;
    }
    const std::size_t before = at - w;
    const double *la = &lower.entry[0][at];
    const double *lb = &lower.entry[1][at];
    const double *lc = &lower.entry[2][at];
    const double *ld = &lower.entry[3][at];
    const double *ia = &inverse_.entry[0][before];
    const double *ib = &inverse_.entry[1][before];
    const double *ic = &inverse_.entry[2][before];
    const double *id = &inverse_.entry[3][before];
    const double *ua = &upper.entry[0][before];
    const double *ub = &upper.entry[1][before];
    const double *uc = &upper.entry[2][before];
    const double *ud = &upper.entry[3][before];
    double *__restrict__ ma = &multiplier_.entry[0][at];
    double *__restrict__ mb = &multiplier_.entry[1][at];
    double *__restrict__ mc = &multiplier_.entry[2][at];
    double *__restrict__ md = &multiplier_.entry[3][at];
    COOK_INDEPENDENT
    for (std::size_t l = 0; l < w; ++l) {
      // Rows of (shift I - A): lower and upper enter with a minus sign, which cancels in the product.
      const double a = la[l] * ia[l] + lb[l] * ic[l];
      const double b = la[l] * ib[l] + lb[l] * id[l];
      const double c = lc[l] * ia[l] + ld[l] * ic[l];
      const double d = lc[l] * ib[l] + ld[l] * id[l];
      ma[l] = a;
      mb[l] = b;
      mc[l] = c;
      md[l] = d;
      const double pa = shift - da[l] - (a * ua[l] + b * uc[l]);
      const double pb = -db[l] - (a * ub[l] + b * ud[l]);
      const double pc = -dc[l] - (c * ua[l] + d * uc[l]);
      const double pd = shift - dd[l] - (c * ub[l] + d * ud[l]);
      const double scale = 1.0 / (pa * pd - pb * pc);
      va[l] = pd * scale;
      vb[l] = -(pb * scale);
      vc[l] = -(pc * scale);
      vd[l] = pa * scale;
    }
  }
}

COOK_VECTOR_CLONES
void BlockLines::solve(double *first, double *second) const {
  const std::size_t w = lines_;
  for (std::size_t j = 1; j < length_; ++j) {
    const std::size_t at = j * w;
    const double *ma = &multiplier_.entry[0][at];
    const double *mb = &multiplier_.entry[1][at];
    const double *mc = &multiplier_.entry[2][at];
    const double *md = &multiplier_.entry[3][at];
    double *__restrict__ p = first + at;
    double *__restrict__ q = second + at;
    const double *pb = first + at - w;
    const double *qb = second + at - w;
    COOK_INDEPENDENT
    for (std::size_t l = 0; l < w; ++l) {
      p[l] += ma[l] * pb[l] + mb[l] * qb[l];
      q[l] += mc[l] * pb[l] + md[l] * qb[l];
    }
  }
  for (std::size_t j = length_; j-- > 0;) {
    const std::size_t at = j * w;
    const double *va = &inverse_.entry[0][at];
    const double *vb = &inverse_.entry[1][at];
    const double *vc = &inverse_.entry[2][at];
    const double *vd = &inverse_.entry[3][at];
    double *__restrict__ p = first + at;
    double *__restrict__ q = second + at;
    if (j + 1 < length_) {
      const double *ua = &upper.entry[0][at];
      const double *ub = &upper.entry[1][at];
      const double *uc = &upper.entry[2][at];
      const double *ud = &upper.entry[3][at];
      const double *pn = first + at + w;
      const double *qn = second + at + w;
      COOK_INDEPENDENT
      for (std::size_t l = 0; l < w; ++l) {
        const double x = p[l] + ua[l] * pn[l] + ub[l] * qn[l];
        const double y = q[l] + uc[l] * pn[l] + ud[l] * qn[l];
        p[l] = va[l] * x + vb[l] * y;
        q[l] = vc[l] * x + vd[l] * y;
      }
    } else {
      COOK_INDEPENDENT
      for (std::size_t l = 0; l < w; ++l) {
        const double x = p[l];
        const double y = q[l];
        p[l] = va[l] * x + vb[l] * y;
        q[l] = vc[l] * x + vd[l] * y;
      }
    }
  }
}

} // namespace cook::engine
