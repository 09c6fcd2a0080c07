// What pages say of the first fetch: the picks that the standard's own plan asks for, and what it costs to stop before they are through.
import type { LotRecord } from '../../app/lots/record/lot.ts'
import type { FirstFetch } from '../../app/lots/rules/first-fetch.ts'
import { counted, whole } from '../figures.ts'
import { Fact } from '../form.tsx'
import { allowedWords } from '../suppliers/words.ts'

/** 50 cords, 1 may fail: normal inspection, acceptance quality limit 1.0 %, level II, letter H. */
export function standardWords(standard: FirstFetch): string {
  const { sampleSize, severity, limit, level, letter, standing } = standard
  const recalled = standing === 'read' ? '' : `; the table’s value is ${standing}: check it against your copy`
  return `${counted(sampleSize, 'cord')}, ${allowedWords(standard)}: ${severity} inspection, acceptance quality limit ${limit} %, level ${level}, letter ${letter}${recalled}`
}

/** Frozen beside the house's plan. */
export function FrozenStandardFact({ fetch }: { fetch: FirstFetch | undefined }) {
  if (!fetch) return null
  return (
    <Fact name="The standard’s plan">
      {standardWords(fetch)} <small>{drawnWords(fetch)}</small>
    </Fact>
  )
}

function drawnWords({ left, sampleSize }: FirstFetch): string {
  return left === undefined
    ? `not ${whole(sampleSize)} cords are drawn, so the standard has no verdict of this lot, and how strictly the series is inspected is not known from it on`
    : `for the switching rules alone, by the first ${whole(sampleSize)} picks of the draw`
}

/** How far it is, in a sentence. */
export function fetchSentence({ sampleSize, recorded, found, verdict, left, rejectionNumber }: FirstFetch): string {
  if (left === undefined)
    return `The draw has fewer than the ${whole(sampleSize)} cords of the standard’s plan: no verdict.`
  const tested = `${whole(recorded)} of ${whole(sampleSize)} tested, ${whole(found)} not conforming`
  if (verdict === 'accept') return `${tested}: accepted under the standard.`
  if (verdict === 'reject')
    return `${tested}, and ${whole(rejectionNumber)} are too many: not accepted under the standard.`
  return `${tested}: no verdict under the standard yet.`
}

/** What stopping now costs, once the plan of the house has its verdict and the first fetch goes on. */
export function stopCosts({ left = 0, undecided }: FirstFetch): string {
  if (left === undecided)
    return `The first fetch has no verdict under the standard before a manager has ruled on ${counted(undecided, 'cord')}; decided on without it, this lot has none, and how strictly the series is inspected is not known from it on.`
  return `The first fetch still has ${counted(left, 'cord')} which the standard’s verdict needs. You may stop; then this lot has no verdict under the standard, and how strictly the series is inspected is not known from this lot on.`
}

/** The first fetch that goes on although the plan has its verdict; undefined where there is none. */
export function openAfterVerdict({ state, verdict, firstFetch }: LotRecord): FirstFetch | undefined {
  return state === 'drawn' && verdict !== undefined && firstFetch?.open ? firstFetch : undefined
}
