// How many cords of a lot to test so that it is caught 95 times in 100 when it holds 5 that do not conform.
import { acceptanceOfLot } from '../app/statistics/plans/measures.ts'
import { singlePlan } from '../app/statistics/plans/single.ts'
import { designZeroForLot } from '../app/statistics/plans/zero.ts'

const lot = { lotSize: 480, nonconforming: 5 }
const sampleSize = designZeroForLot({ ...lot, risk: 0.05 })
const plan = singlePlan({ sampleSize, acceptanceNumber: 0 })
console.log(`Test ${sampleSize} of ${lot.lotSize}, accept if none is found.`)
console.log(`A lot with ${lot.nonconforming} slips through with chance ${acceptanceOfLot(plan, lot).toFixed(4)}.`)
