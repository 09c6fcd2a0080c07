// What the ways of testing mean for the series that a lot belongs to: the standard's plan, the first fetch, and which ways leave no verdict.
import type { Advice } from '../../app/advice/advise.ts'
import { counted, whole } from '../figures.ts'
import { wayWords } from '../words/plans.ts'

export function SeriesOfLot({ advice }: { advice: Advice }) {
  const { outside, inspection, standard, alternatives } = advice
  if (outside === 'resubmitted' || outside === 'replacement') return null
  if (outside === 'isolated')
    return (
      <p>
        This lot is marked as isolated: no series stands behind it, so the standard’s plan for series is not compared.
      </p>
    )
  if (inspection === 'discontinued')
    return <p>The series is discontinued: by the standard no lot is taken until the supplier has acted.</p>
  const sampleSize = alternatives.find(({ kind }) => kind === 'standard')?.testsAtMost
  if (!standard || sampleSize === undefined) return null
  const short = alternatives.filter(({ testsAtMost }) => testsAtMost < sampleSize).map(({ kind }) => wayWords[kind])
  return (
    <>
      <p>
        {inspection === 'not-known'
          ? 'How strictly the series is inspected is not known, as a lot has no verdict under the standard; the standard’s plan is that of the strictest inspection that is possible, '
          : 'The standard’s plan is that of the present inspection, '}
        <b>{standard.inspection}</b>: acceptance quality limit {standard.acceptanceQualityLimit} %, level{' '}
        {standard.level}. It is meant for a series of lots under the switching rules, not for what this one lot demands.
      </p>
      <p>
        Its {counted(sampleSize, 'cord')} are the first picks of the draw, tested first and to their own end, whatever
        the plan says before: every way that draws so many is charged with that.
        {short.length > 0 &&
          ` A way that draws fewer than ${whole(sampleSize)} leaves the lot without a verdict under the standard, and how strictly the series is inspected is then not known: ${short.join('; ')}.`}
      </p>
    </>
  )
}
