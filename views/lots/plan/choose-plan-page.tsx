// The officer chooses how many to test and freezes the plan: the ways side by side for the lot in hand.
import type { Comparison, OpenAlternative } from '../../../app/advisor/compare.ts'
import type { Question } from '../../../app/advisor/question.ts'
import type { Problems } from '../../../app/kit/problems.ts'
import type { LotRecord } from '../../../app/lots/record/lot.ts'
import { OptionsTable } from '../../advisor/options.tsx'
import { nameOf } from '../../advisor/words.ts'
import { NumbersCondition } from '../../cautions.tsx'
import { accuracy, counted, money, whole } from '../../figures.ts'
import { Blank, BlankProblem, Fact, Facts, ProblemSummary, Version } from '../../form.tsx'
import { policyWords, tooManyWords } from '../../items/terms.tsx'
import { type Frame, Page } from '../../layout.tsx'

export type AskedFields = { good: string; goodrisk: string; percent: string; own: string }

type Props = Frame & {
  lot: LotRecord
  currency: string
  asked: AskedFields
  options: { question: Question; comparison: Comparison } | undefined
  problems?: Problems | undefined
}

export function ChoosePlanPage({ viewer, firm, lot, currency, asked, options, problems }: Props) {
  return (
    <Page title={`How many of lot ${lot.id} to test`} current="lots" viewer={viewer} firm={firm}>
      <h1>
        How many of <a href={`/lots/${lot.id}`}>lot {lot.id}</a> to test
      </h1>
      {options && <Advice {...options} />}
      <p>
        Choose and freeze before any cord is opened. The plan and the terms below are then kept for this lot for good.
      </p>
      <Terms lot={lot} currency={currency} />
      <p>
        <a href={`/lots/${lot.id}/advice`}>What each way costs, and what is advised</a> from this supplier’s history;
        two samples, cord by cord and the standard’s plan can be frozen there.
      </p>
      <ProblemSummary problems={problems} />
      <Wishes lot={lot} asked={asked} problems={problems ?? {}} />
      {options && (
        <>
          <h2>What each way of testing does to a lot with {whole(options.question.tooMany)} nonconforming</h2>
          <OptionsTable {...options} choose={(way) => <Freeze lot={lot} way={way} question={options.question} />} />
          <NumbersCondition />
        </>
      )}
    </Page>
  )
}

function Advice({ question, comparison: { advised } }: { question: Question; comparison: Comparison }) {
  const { lotSize, tooMany } = question
  if (!('acceptanceNumber' in advised))
    return (
      <p class="answer">
        Advised: test every one of the {whole(lotSize)} cords; no smaller sample keeps what the item demands.
      </p>
    )
  const allowed =
    advised.acceptanceNumber === 0 ? 'none may fail' : `at most ${whole(advised.acceptanceNumber)} may fail`
  return (
    <p class="answer">
      Advised: test up to {whole(advised.sampleSize)} of the {whole(lotSize)} cords; {allowed}, where{' '}
      {counted(tooMany, 'cord is', 'cords are')} too many.
    </p>
  )
}

/** What will be frozen beside the plan. */
function Terms({ lot: { item, terms }, currency }: { lot: LotRecord; currency: string }) {
  return (
    <Facts>
      <Fact name="Item">
        <a href={`/items/${item.id}`}>{item.name}</a>, {item.lengthMetres} m
      </Fact>
      <Fact name="Cord limit">{terms.cordLimit}</Fact>
      <Fact name="Marginal cords">{policyWords[terms.marginalPolicy].long}</Fact>
      <Fact name="Tester’s accuracy">
        crosstalk {accuracy(terms.crosstalkAccuracy)}, return loss {accuracy(terms.returnLossAccuracy)}
      </Fact>
      <Fact name="Too many">
        {tooManyWords(terms.tooManyAsSaid)}: {counted(terms.tooMany, 'cord')} in this lot, to be caught{' '}
        {terms.catchOf100} times in 100
      </Fact>
      <Fact name="Costs">
        {money(terms.costTestCents, currency)} a test, {money(terms.costEscapeCents, currency)} an escaped cord,{' '}
        {money(terms.costReturnCents, currency)} a lot returned
      </Fact>
    </Facts>
  )
}

function Wishes({ lot, asked, problems }: { lot: LotRecord; asked: AskedFields; problems: Problems }) {
  const path = `/lots/${lot.id}/plan`
  const gap = (name: keyof AskedFields, label: string) => (
    <Blank name={name} label={label} value={asked[name]} problem={problems[name]} inputmode="text" />
  )
  return (
    <form method="get" action={path} hx-get={path} hx-target="main" hx-select="main" hx-swap="outerHTML">
      <p class="ask">
        A lot with only {gap('good', 'Number that should rarely be sent back')} that do not conform should be sent back
        at most {gap('goodrisk', 'Times in 100 it may be sent back')} times in 100. Beside it I want to see{' '}
        {gap('percent', 'Percent tested today')} % and the contract’s plan{' '}
        {gap('own', 'The contract’s plan, cords to test / acceptance number')}.
      </p>
      {(['good', 'goodrisk', 'percent', 'own'] as const).map((name) => (
        <BlankProblem name={name} problem={problems[name]} />
      ))}
      <p>
        <small>All may stay empty. A plan is written cords to test / acceptance number, such as 50/1.</small>
      </p>
      <button type="submit" class="plain">
        Compare again
      </button>
    </form>
  )
}

/** The button of one row. What is not tested at all is no plan. */
function Freeze({ lot, way, question }: { lot: LotRecord; way: OpenAlternative; question: Question }) {
  if (way.kind === 'no-test') return <small>no plan</small>
  const acceptanceNumber = 'acceptanceNumber' in way ? way.acceptanceNumber : way.sampleSize
  return (
    <form method="post" action={`/lots/${lot.id}/plan`}>
      <Version value={lot.version} />
      <input type="hidden" name="kind" value={way.kind} />
      <input type="hidden" name="sampleSize" value={way.sampleSize} />
      <input type="hidden" name="acceptanceNumber" value={acceptanceNumber} />
      <button type="submit" class="plain">
        Freeze <span class="hidden">the plan: {nameOf(way, question)}</span>
      </button>
    </form>
  )
}
