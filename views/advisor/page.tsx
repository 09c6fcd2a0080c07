// The start page: how many cords should I test? The answer in one line, its reason, the ways side by side, the curves.
import type { Comparison, Way } from '../../app/advisor/compare.ts'
import type { Curve, Curves as CurveFacts } from '../../app/advisor/curve.ts'
import type { Question, QuestionText } from '../../app/advisor/question.ts'
import { Condition } from '../cautions.tsx'
import { Curves } from '../charts/curves.tsx'
import { counted, frequency, perHundred, wantedOfHundred, whole } from '../figures.ts'
import type { Problems } from '../form.tsx'
import { type Frame, Page } from '../layout.tsx'
import { Table } from '../table.tsx'
import { lettersOf, OptionsTable } from './options.tsx'
import { QuestionForm } from './question.tsx'
import { nameOf, suchLots } from './words.ts'

export type Advice = { question: Question; comparison: Comparison; curves: CurveFacts }

type Props = Frame & { asked: QuestionText; problems?: Problems | undefined; advice?: Advice | undefined }

export function AdvisorPage({ reader, firm, asked, problems, advice }: Props) {
  return (
    <Page title="How many cords to test" reader={reader} firm={firm} current="advisor">
      <h1>How many cords should I test?</h1>
      <QuestionForm asked={asked} problems={problems} />
      {advice && <Answer {...advice} />}
      {firm?.example && (
        <p>
          <a href={reader ? '/lots' : '/sign-in'}>See a lot from dock to decision</a>
        </p>
      )}
    </Page>
  )
}

function Answer({ question, comparison, curves }: Advice) {
  return (
    <>
      <p class="answer">{adviceIn(comparison.advised, question)}</p>
      <p class="because">{reasonFor(question, comparison)}</p>
      <Condition />
      <h2>What each way of testing does to a lot with {whole(question.tooMany)} nonconforming</h2>
      <OptionsTable question={question} comparison={comparison} />
      <h2>How often a lot is accepted</h2>
      <CurveFigure question={question} comparison={comparison} curves={curves} />
    </>
  )
}

function adviceIn(advised: Way, { lotSize }: Question): string {
  if (!('acceptanceNumber' in advised))
    return lotSize === 1
      ? 'Test the one cord and keep it if it conforms.'
      : `Test every one of the ${whole(lotSize)} cords; keep those that conform and send the others back.`
  const { sampleSize, acceptanceNumber } = advised
  const test = `Test ${whole(sampleSize)} of the ${whole(lotSize)} cords and accept the lot only if`
  if (acceptanceNumber === 0) return `${test} ${sampleSize === 1 ? 'it conforms' : 'all of them conform'}.`
  return `${test} at most ${whole(acceptanceNumber)} ${acceptanceNumber === 1 ? 'does' : 'do'} not conform.`
}

function reasonFor(question: Question, { advised, today }: Comparison): string {
  const { tooMany, confidence, good } = question
  const such = suchLots(question)
  const caught = `at least ${wantedOfHundred(confidence)} of 100 ${such}`
  const spared = `at most ${wantedOfHundred(good.risk)} of 100 lots with ${whole(good.nonconforming)}`
  const yours = `Your ${question.today.percent} %, ${counted(today.sampleSize, 'cord')} with none allowed, lets ${frequency(today.slips.yes, today.slips.no)} such lots through`
  const lesson =
    advised.sampleSize > today.sampleSize
      ? `${yours}: what protects you is how many cords are tested, not which share of the lot they are.`
      : `${yours}, with ${today.sampleSize === advised.sampleSize ? 'as many' : 'more'} cords.`
  if (advised.kind === 'every-cord') {
    const both = good.demanded ? `catches ${caught} and sends back ${spared}` : `catches ${caught}`
    return `No sample smaller than the lot ${both}. ${lesson}`
  }
  if (good.demanded) return `No plan with fewer cords catches ${caught} and sends back ${spared}. ${lesson}`
  const price =
    good.nonconforming > 0 && good.nonconforming < tooMany
      ? ` With none allowed, ${frequency(advised.sentBack.yes, advised.sentBack.no)} lots that hold only ${whole(good.nonconforming)} are sent back too: say above which lots should rarely be, and the plan for both is advised.`
      : ''
  return `This catches ${caught}; no smaller sample does. ${lesson}${price}`
}

function CurveFigure({ question, comparison, curves }: Advice) {
  const letters = lettersOf(comparison)
  const { lotSize, tooMany } = question
  const drawn = curves.drawn.map(({ way, points }) => ({
    letter: letters.get(way) ?? '',
    points: points.map(({ nonconforming, accepted }) => ({ x: nonconforming, chance: accepted.yes })),
  }))
  return (
    <figure class="chart">
      <Curves
        title="Lots accepted, of 100, against nonconforming cords in the lot"
        description={curves.marked.map((curve) => inWords(curve, question, letters.get(curve.way))).join(' ')}
        curves={drawn}
        most={curves.most}
        lotSize={lotSize}
        tooMany={tooMany}
      />
      <figcaption>
        {curves.drawn
          .map(({ way }) => `${letters.get(way)}: ${nameOf(way, question)} (${whole(way.sampleSize)} cords)`)
          .join(' · ')}
        . Exact for a lot of {whole(lotSize)}, drawn at random.
      </figcaption>
      <details>
        <summary>The same as a table</summary>
        <CurveTable question={question} comparison={comparison} curves={curves} />
      </details>
    </figure>
  )
}

function inWords({ way, points }: Curve, question: Question, letter: string | undefined): string {
  const at = points.find(({ nonconforming }) => nonconforming === question.tooMany)
  return `${letter}, ${nameOf(way, question)}: accepts ${at ? perHundred(at.accepted.yes, at.accepted.no) : '–'} of 100 ${suchLots(question)}.`
}

function CurveTable({ question, comparison, curves }: Advice) {
  const letters = lettersOf(comparison)
  const numbers = curves.marked[0]?.points.map(({ nonconforming }) => nonconforming) ?? []
  const named = curves.marked.map(({ way }) => `${letters.get(way)}: ${nameOf(way, question)}`)
  return (
    <Table
      compact
      caption="Lots accepted, of 100"
      columns={[{ head: 'Nonconforming cords in the lot' }, ...named.map((head) => ({ head }))]}
      rows={numbers.map((nonconforming, at) => ({
        picked: nonconforming === question.tooMany,
        cells: [
          counted(nonconforming, 'nonconforming cord'),
          ...curves.marked.map(({ points }) => {
            const accepted = points[at]?.accepted
            return accepted ? perHundred(accepted.yes, accepted.no) : '–'
          }),
        ],
      }))}
    />
  )
}
