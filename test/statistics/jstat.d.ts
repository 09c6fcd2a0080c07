// The part of jstat that is measured; it ships no types.
declare module 'jstat' {
  const jstat: {
    jStat: {
      hypgeom: {
        pdf: (x: number, lotSize: number, nonconforming: number, sampleSize: number) => number
        cdf: (x: number, lotSize: number, nonconforming: number, sampleSize: number) => number
      }
      binomial: { cdf: (x: number, sampleSize: number, fraction: number) => number }
      beta: {
        cdf: (x: number, a: number, b: number) => number
        inv: (probability: number, a: number, b: number) => number
      }
      normal: {
        cdf: (x: number, mean: number, deviation: number) => number
        inv: (probability: number, mean: number, deviation: number) => number
      }
      studentt: { inv: (probability: number, degreesOfFreedom: number) => number }
      noncentralt: { cdf: (t: number, degreesOfFreedom: number, noncentrality: number) => number }
    }
  }
  export default jstat
}
