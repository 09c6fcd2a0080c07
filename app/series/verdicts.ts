// What the standard's plan says of a decided lot, and all that the lot may have been where it says nothing.
import { type FrozenStandard, type StandardVerdict, standardVerdict } from '../lots/rules/first-fetch.ts'
import type { SampleCount } from '../lots/rules/progress.ts'
import type { SeriesTerms } from '../lots/rules/standard-terms.ts'
import { acceptanceNumberOneStepTighter, type Inspection } from '../statistics/plans/standard.ts'
import { type InspectedLot, scoreOfSingle } from '../statistics/switching.ts'
import type { InspectedLotFacts } from './inspected-lots.ts'
import { standardIn } from './terms.ts'

/** What the standard's plan said of one lot. */
export type LotVerdict = SampleCount & {
  lotId: number
  at: Date
  standard: FrozenStandard
  verdict: StandardVerdict
  /** its plan was not frozen with the lot: it is that of the series as it stood when the lot's plan was frozen */
  replayed: boolean
  /** picks that were drawn */
  drawn: number
}

/**
 * The standard's plan on the first picks of a lot's draw. A frozen plan counts whatever state the series turns out to have had:
 * it is the one under which the lot was inspected, the strictest in doubt.
 *
 * @param severity of a lot without a frozen plan: that of the series when the lot's plan was frozen
 */
export function lotVerdict(lot: InspectedLotFacts, terms: SeriesTerms, severity: Inspection): LotVerdict {
  const { lotId, drawn, decidedAt: at } = lot
  const standard = lot.standard ?? standardIn(terms, lot.size, severity)
  if (!standard) throw new Error(`lot ${lotId} has one cord and is in no series`)
  const { recorded, found } = lot.picks.find(({ sampleSize }) => sampleSize === standard.sampleSize) ?? none
  const verdict = standardVerdict(standard, { recorded, found, drawn })
  return { lotId, at, standard, recorded, found, drawn, verdict, replayed: lot.standard === undefined }
}

const none: SampleCount = { recorded: 0, found: 0 }

/**
 * All that the rules may have to take a lot for: one, where the standard's plan has its verdict. Without one the lot may have
 * been rejected, or accepted with any number that what is recorded leaves open.
 */
export function possibleInspections(of: LotVerdict, reducedWanted: boolean): InspectedLot[] {
  const { standard, found, recorded, verdict } = of
  if (verdict !== 'not known') return [inspected(standard, found, reducedWanted)]
  const { rejectionNumber, sampleSize } = standard
  const most = Math.min(rejectionNumber - 1, found + sampleSize - recorded)
  const accepted = Array.from({ length: Math.max(0, most - found + 1) }, (_, more) => found + more)
  return [...accepted, rejectionNumber].map((each) => inspected(standard, each, reducedWanted))
}

function inspected(standard: FrozenStandard, found: number, reducedWanted: boolean): InspectedLot {
  const accepted = found < standard.rejectionNumber
  return {
    original: true,
    accepted,
    inGap: accepted && standard.severity === 'reduced' && found > standard.acceptanceNumber,
    score: accepted ? scoreOf(standard, found) : 0,
    steady: reducedWanted,
    reducedWanted,
    withinLimitNumber: false, // asked by the older edition's way to reduced inspection alone
  }
}

/** By another plan than that for normal inspection the acceptance number one step tighter is not known: with 2 or more allowed only a clean sample adds. */
function scoreOf({ severity, limit, letter, acceptanceNumber }: FrozenStandard, found: number): InspectedLot['score'] {
  const named = severity === 'normal' && acceptanceNumber >= 2
  const tighterAcceptanceNumber = named ? acceptanceNumberOneStepTighter(letter, limit) : 0
  return scoreOfSingle({ found, acceptanceNumber, tighterAcceptanceNumber })
}
