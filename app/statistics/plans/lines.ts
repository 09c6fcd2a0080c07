// Wald's two lines: accept below the one, reject above the other, go on between them.
import { openProbability } from '../check.ts'
import type { ProcessRisk, Stage } from './plan.ts'

/** Accept at found ≤ −acceptIntercept + slope·n, reject at found ≥ rejectIntercept + slope·n. */
export type Lines = { readonly slope: number; readonly acceptIntercept: number; readonly rejectIntercept: number }

/**
 * The lines of the sequential probability ratio test between two fractions nonconforming.
 *
 * @param producer fraction above 0, risk in (0, 1)
 * @param consumer fraction above the producer's and below 1, risk in (0, 1)
 * @throws RangeError that names the argument out of range
 *
 * Source: A. Wald (1947), Sequential Analysis; formulas as in the NIST/SEMATECH e-Handbook 6.2.6.
 *
 * @example sequentialLines({ producer: { fraction: 0.01, risk: 0.05 }, consumer: { fraction: 0.1, risk: 0.1 } })
 *   // { slope: 0.0397, acceptIntercept: 0.939, rejectIntercept: 1.205 }
 */
export function sequentialLines({ producer, consumer }: { producer: ProcessRisk; consumer: ProcessRisk }): Lines {
  openProbability('producer.fraction', producer.fraction)
  openProbability('consumer.fraction', consumer.fraction)
  openProbability('producer.risk', producer.risk)
  openProbability('consumer.risk', consumer.risk)
  if (!(producer.fraction < consumer.fraction))
    throw new RangeError(
      `producer.fraction must be below consumer.fraction (${consumer.fraction}), not ${producer.fraction}`,
    )

  const difference = consumer.fraction - producer.fraction
  const conforming = Math.log1p(difference / (1 - consumer.fraction))
  const k = Math.log1p(difference / producer.fraction) + conforming
  return {
    slope: conforming / k,
    acceptIntercept: logRatio(1 - producer.risk, consumer.risk) / k,
    rejectIntercept: logRatio(1 - consumer.risk, producer.risk) / k,
  }
}

/** ln(x ÷ y), from the quotient where that is a number: it keeps the digits that a difference of two logarithms loses. */
function logRatio(x: number, y: number): number {
  return x / y < Number.POSITIVE_INFINITY ? Math.log(x / y) : Math.log(x) - Math.log(y)
}

/** Refuses risks that together leave nothing to tell apart: the lines would cross. */
export function checkWaldRisks({
  producer,
  consumer,
}: {
  producer: { risk: number }
  consumer: { risk: number }
}): void {
  if (!(producer.risk + consumer.risk < 1))
    throw new RangeError(
      `producer.risk and consumer.risk must sum to less than 1, not ${producer.risk + consumer.risk}`,
    )
}

/** Acceptance and rejection number on the lines after `sampleSize` units; a count on a line, up to 1e-9, has reached it. */
export function lineNumbers(lines: Lines, sampleSize: number): Omit<Stage, 'sampleSize'> {
  const middle = lines.slope * sampleSize
  const acceptanceNumber = Math.max(-1, Math.floor(middle - lines.acceptIntercept + 1e-9))
  const rejectionNumber = Math.max(acceptanceNumber + 1, Math.ceil(middle + lines.rejectIntercept - 1e-9))
  return { acceptanceNumber, rejectionNumber }
}
