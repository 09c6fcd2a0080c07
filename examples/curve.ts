// How often a tenth with none allowed accepts a lot, by the nonconforming cords in it.
import { acceptanceCurveOfLot } from '../app/statistics/plans/curve.ts'
import { singlePlan } from '../app/statistics/plans/single.ts'

const curve = acceptanceCurveOfLot(singlePlan({ sampleSize: 48, acceptanceNumber: 0 }), 480)
for (const nonconforming of [0, 1, 5, 12, 24, 48])
  console.log(`${nonconforming}: accepted ${(100 * (curve[nonconforming] ?? 0)).toFixed(1)} times in 100`)
