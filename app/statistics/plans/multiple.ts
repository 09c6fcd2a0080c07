// Multiple plans: up to seven equal samples, a verdict after any of them and at the last.
import { count, exceeds } from '../check.ts'
import { TooManySteps } from '../steps.ts'
import { fewestUnits, type StagedSearch } from './fewest-units.ts'
import { type Law, lawOfLot, lawOfProcess } from './law.ts'
import { checkWaldRisks, type Lines, lineNumbers, sequentialLines } from './lines.ts'
import { outcomesUnder } from './measures.ts'
import { stepsOver } from './passage.ts'
import type { LotRisk, Plan, ProcessRisk, Stage } from './plan.ts'
import { checkStages } from './plan.ts'
import { checkLotRisks, checkProcessRisks } from './single.ts'

/** The published attributes standards have no plan of more samples. */
const mostSamples = 7

/** Units in all samples; designs of longer plans are refused. */
const longest = 10_000

/** Terms that the plans tried may sum between them: a tenth of a second or two. */
const mostSteps = 4_000_000

/**
 * The plan of equal samples with these cumulative acceptance and rejection numbers, one pair a sample.
 *
 * @param sampleSize units in each sample, at least 1
 * @param numbers two to seven pairs; acceptance number −1 where that sample cannot accept
 * @throws RangeError that names the argument, or the stage that is not one
 */
export function multiplePlan({
  sampleSize,
  numbers,
}: {
  sampleSize: number
  numbers: readonly Omit<Stage, 'sampleSize'>[]
}): Plan {
  count('sampleSize', sampleSize, 1)
  count('samples', numbers.length, 2, mostSamples)
  const stages = numbers.map((pair, index) => ({ sampleSize: sampleSize * (index + 1), ...pair }))
  const plan = { kind: 'multiple', stages }
  checkStages(plan)
  return plan
}

/**
 * The multiple plan of the smallest samples on Wald's lines that keeps both risks exactly for a process: the lines give the
 * numbers after each sample but the last, where the smallest acceptance number between them that does is taken.
 *
 * @param samples 2 to 7
 * @throws RangeError that names the argument out of range, or says that the lines do not keep the risks within 10,000 units; TooManySteps
 *   where the plans tried would sum more than 4,000,000 terms
 * @example designMultipleForProcess({ producer: { fraction: 0.01, risk: 0.05 }, consumer: { fraction: 0.05, risk: 0.1 },
 *   samples: 7 }) // samples of 24, the last with acceptance number 4
 */
export function designMultipleForProcess(requirements: {
  producer: ProcessRisk
  consumer: ProcessRisk
  samples: number
}): Plan {
  const { producer, consumer, samples } = requirements
  checkProcessRisks(requirements)
  checkWaldRisks(requirements)
  count('samples', samples, 2, mostSamples)

  return smallest({
    requirements,
    samples,
    most: Math.floor(longest / samples),
    good: lawOfProcess(producer.fraction),
    bad: lawOfProcess(consumer.fraction),
  })
}

/** The same for a lot in hand, with the lines of the two shares of the lot (the producer's above 0) and the hypergeometric law. */
export function designMultipleForLot(requirements: {
  lotSize: number
  producer: LotRisk
  consumer: LotRisk
  samples: number
}): Plan {
  const { lotSize, producer, consumer, samples } = requirements
  checkLotRisks(requirements)
  checkWaldRisks(requirements)
  count('samples', samples, 2, mostSamples)

  const share = ({ nonconforming, risk }: LotRisk) => ({ fraction: nonconforming / lotSize, risk })
  return smallest({
    requirements: { producer: share(producer), consumer: share(consumer) },
    samples,
    most: Math.floor(Math.min(longest, lotSize) / samples),
    good: lawOfLot({ lotSize, nonconforming: producer.nonconforming }),
    bad: lawOfLot({ lotSize, nonconforming: consumer.nonconforming }),
  })
}

type Search = StagedSearch<Law> & { samples: number }

/** Tries sample by sample, from the fewest units within which any plan can keep both risks. */
function smallest({ requirements, samples, most, good, bad }: Search): Plan {
  const lines = sequentialLines(requirements)
  const fewest = fewestUnits(requirements, samples * most, { good, bad }) ?? Number.POSITIVE_INFINITY
  let steps = 0
  for (let sampleSize = Math.ceil(fewest / samples); sampleSize <= most; sampleSize++) {
    const { acceptanceNumber, rejectionNumber } = lineNumbers(lines, samples * sampleSize)
    for (let last = Math.max(0, acceptanceNumber); last < rejectionNumber; last++) {
      const plan = onLines(lines, { samples, sampleSize, last })
      steps += stepsOver(plan)
      if (steps > mostSteps)
        throw new TooManySteps(`consumer and producer must differ more: the search takes more than ${mostSteps} steps`)
      if (exceeds(rejection(plan, good), requirements.producer.risk)) continue
      if (!exceeds(acceptance(plan, bad), requirements.consumer.risk)) return plan
      break
    }
  }
  throw new RangeError(`risks must be ones that ${samples} samples on Wald's lines keep; take the single plan instead`)
}

function onLines(
  lines: Lines,
  { samples, sampleSize, last }: { samples: number; sampleSize: number; last: number },
): Plan {
  const numbers = []
  for (let sample = 1; sample < samples; sample++) numbers.push(lineNumbers(lines, sample * sampleSize))
  numbers.push({ acceptanceNumber: last, rejectionNumber: last + 1 })
  return multiplePlan({ sampleSize, numbers })
}

function acceptance(plan: Plan, law: Law): number {
  return outcomesUnder(plan, law).reduce((sum, { accepted }) => sum + accepted, 0)
}

function rejection(plan: Plan, law: Law): number {
  return outcomesUnder(plan, law).reduce((sum, { rejected }) => sum + rejected, 0)
}
