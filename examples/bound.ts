// What a clean tenth of a lot says of the lot, and of the process that made it.
import { upperBoundOfFraction } from '../app/statistics/bounds/fraction.ts'
import { upperBoundInLot } from '../app/statistics/bounds/lot.ts'

const sample = { lotSize: 480, sampleSize: 48, found: 0, confidence: 0.95 }
console.log(
  `None found in ${sample.sampleSize} of ${sample.lotSize}: up to ${upperBoundInLot(sample)} could be nonconforming.`,
)
console.log(`The process may make up to ${(100 * upperBoundOfFraction(sample)).toFixed(2)} in 100.`)
