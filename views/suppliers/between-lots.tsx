// What a series of finished lots says together: whether they differ, and how many the next one will hold.
import type { Difference } from '../../app/history/differ.ts'
import type { FinishedLot } from '../../app/history/finished.ts'
import type { NextHolds } from '../../app/history/next-holds.ts'
import type { Series } from '../../app/history/series/series.ts'
import { confidenceOf, counted, expected, frequency, whole } from '../figures.ts'

type Counts = Pick<FinishedLot, 'lotId' | 'tested' | 'found'>

/** So many lots are named one by one; the table of the page has them all. */
const named = 8

export function BetweenLots({ series: { finished, difference, holds } }: { series: Series }) {
  if (finished.length === 0)
    return <p>No lot of it is finished yet: tested to its plan’s end, or to its rejection number.</p>
  return (
    <>
      <p>
        <b>{lotsInWords(finished.toReversed().slice(0, named))}</b>
        {finished.length > named && ` and ${counted(finished.length - named, 'lot')} before these`}.{' '}
        {differenceWords(difference)}
      </p>
      <p>{holds ? holdsWords(holds) : tooFewWords(finished.length)}</p>
    </>
  )
}

/** "15 of 240 in lot 9; before it 0 of 288 in lot 7, 2 of 300 in lot 5": the latest first, a sample each. */
export function lotsInWords([latest, ...before]: readonly Counts[]): string {
  if (!latest) return ''
  const said = ({ lotId, tested, found }: Counts) => `${whole(found)} of ${whole(tested)} in lot ${lotId}`
  return before.length === 0 ? said(latest) : `${said(latest)}; before it ${before.map(said).join(', ')}`
}

function differenceWords(difference: Difference): string {
  const left =
    difference.leftOut > 0
      ? ` ${counted(difference.leftOut, 'lot is', 'lots are')} not asked: tested in several samples, or before the latest twenty.`
      : ''
  switch (difference.kind) {
    case 'cannot tell':
      return `${untoldWords[difference.why]}${left}`
    case 'differ':
      return `These lots differ more than one steady process lets them: lots so different come in ${chanceWords(difference)}. No single share holds for them.${looksWords}${left}`
    case 'not shown':
      return `That these lots differ is not shown: lots so different come in ${chanceWords(difference)} of one steady process. It does not show that they are alike.${looksWords}${left}`
  }
}

function chanceWords({ by, chance, error }: Extract<Difference, { by: string }>): string {
  const series = `${frequency(Math.max(chance, Number.MIN_VALUE))} series`
  if (by === 'totals')
    return `${series} (exact, given how many were tested and found in all, each lot under its own rule of stopping)`
  const how = error === undefined ? 'exact' : `simulated, error ${frequency(error)}`
  return `at most ${series} (the largest chance over all shares; ${how})`
}

const looksWords =
  ' Asked after every lot at a level of 1 of 100: a steady supplier is called unsteady at most once in 100 looks.'

const untoldWords: Record<Extract<Difference, { kind: 'cannot tell' }>['why'], string> = {
  'one lot': 'One lot cannot tell whether lots differ.',
  'all the same': 'These lots cannot tell whether they differ: all that were tested are of one kind.',
  'too few cords': 'These lots cannot tell whether they differ: too few cords were tested for any outcome to show it.',
  'too many lots': 'Whether these lots differ takes too long to work out here; the table below shows each.',
}

function holdsWords({ size, lower, upper, mean, confidence, lots }: NextHolds): string {
  return `The next lot of ${whole(size)} is to hold ${whole(lower)} to ${whole(upper)} nonconforming cords, ${expected(mean)} on average (two-sided ${confidenceOf(confidence)}; beta-binomial, from ${counted(lots, 'finished lot')}, which may differ).`
}

function tooFewWords(lots: number): string {
  return `What the next lot will hold is not said: that takes five finished lots, and there ${lots === 1 ? 'is one' : `are ${whole(lots)}`}.`
}
