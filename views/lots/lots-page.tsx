// All lots that wait for somebody, the reader's own turn first, each with its next step.
import type { Alerts } from '../../app/desk/alerts.ts'
import type { LotGroup, LotLine, LotsWaiting } from '../../app/desk/work-list.ts'
import type { Act } from '../../app/lots/rules/next-step.ts'
import type { Role } from '../../app/terms/person.ts'
import { counted, waited, whole } from '../figures.ts'
import { Headline } from '../frame.tsx'
import { type Frame, Page } from '../layout.tsx'
import { actWords } from '../words/lots.ts'
import { AlertList } from './alert-list.tsx'
import { FindLots } from './find.tsx'

type Props = Frame & { roles: Role[]; lots: LotsWaiting; alerts: Alerts; find: string; now: Date }

const order: Role[] = ['officer', 'inspector', 'manager']

export function LotsPage({ viewer, firm, done, roles, lots, alerts, find, now }: Props) {
  const { waiting, closed } = lots
  const own = waiting.filter((group) => roles.includes(group.role))
  return (
    <Page title="Lots" current="lots" viewer={viewer} firm={firm} done={done}>
      <h1 class="hidden">Lots</h1>
      <Headline answer={answerIn(own, alerts)}>
        {roles.includes('officer') && (
          <a class="button" href="/lots/new">
            Announce a lot
          </a>
        )}
      </Headline>
      <AlertList alerts={alerts} />
      <FindLots find={find} action="/lots" />
      <Found find={find} waiting={waiting} />
      <Waiting waiting={waiting} roles={roles} now={now} />
      <p class="more">
        <a href="/lots/closed">{counted(closed, 'closed lot')}</a> · <a href="/lots/calibration">Predicted and found</a>
      </p>
    </Page>
  )
}

/** Where no open lot is found. */
function Found({ find, waiting }: { find: string; waiting: LotGroup[] }) {
  if (find === '' || waiting.length > 0) return null
  return (
    <p>
      No open lot is found by “{find}”.{' '}
      <a href={`/lots/closed?find=${encodeURIComponent(find)}`}>Look in the closed lots</a>
    </p>
  )
}

function Waiting({ waiting, roles, now }: { waiting: LotGroup[]; roles: Role[]; now: Date }) {
  if (waiting.length === 0) return null
  const own = waiting.filter((group) => roles.includes(group.role))
  const others = order.filter((role) => !roles.includes(role))
  return (
    <table class="lots">
      <thead>
        <tr>
          <th scope="col">Lot</th>
          <th scope="col">From</th>
          <th scope="col" class="figure">
            Cords
          </th>
          <th scope="col">Next step</th>
          <th scope="col">Waiting</th>
          <th scope="col">
            <span class="hidden">Go on</span>
          </th>
        </tr>
      </thead>
      <Rows name="For you" groups={own} now={now} mine />
      {others.map((role) => (
        <Rows name={`For the ${role}`} groups={waiting.filter((group) => group.role === role)} now={now} />
      ))}
    </table>
  )
}

function answerIn(own: LotGroup[], { waits }: Alerts): string {
  const turns = own.reduce((sum, group) => sum + group.lots.length, 0)
  const mine = turns === 0 ? 'No lot waits for you' : `${counted(turns, 'lot waits', 'lots wait')} for you`
  return waits.length === 0 ? `${mine}.` : `${mine}; ${counted(waits.length, 'lot has', 'lots have')} waited too long.`
}

type RowsProps = { name: string; groups: LotGroup[]; now: Date; mine?: boolean }

function Rows({ name, groups, now, mine }: RowsProps) {
  if (groups.length === 0) return null
  return (
    <tbody>
      <tr class="group">
        <th scope="rowgroup" colspan={6}>
          {name}
        </th>
      </tr>
      {groups.flatMap(({ act, lots }) => lots.map((lot) => <Row lot={lot} act={act} now={now} mine={mine} />))}
    </tbody>
  )
}

function Row({ lot, act, now, mine }: { lot: LotLine; act: Act; now: Date; mine: boolean | undefined }) {
  return (
    <tr>
      <th scope="row">
        <a class="whole-row" href={`/lots/${lot.id}`}>
          Lot {lot.id}
        </a>
      </th>
      <td>
        {lot.supplier}
        <small>
          {lot.item} · {lot.purchaseOrder}
        </small>
      </td>
      <td class="figure">
        <span class="narrow-only">Cords </span>
        {whole(lot.size)}
      </td>
      <td>
        {actWords[act].step}
        {(act === 'test' || act === 'screen') && (
          <>
            : <progress value={lot.recorded} max={lot.toRecord} aria-hidden="true"></progress> {whole(lot.recorded)} of{' '}
            {whole(lot.toRecord)}
          </>
        )}
      </td>
      <td>{waited(lot.since, now)}</td>
      <td class="act">
        {mine && (
          <a class="button small" href={`/lots/${lot.id}${pathOf[act]}`}>
            {actWords[act].step}
            <span class="hidden"> lot {lot.id}</span>
          </a>
        )}
      </td>
    </tr>
  )
}

/** Where the step is taken; a draw and a ruling begin on the lot's own page. */
const pathOf: Record<Act, string> = {
  receive: '/receipt',
  plan: '/plan',
  draw: '',
  test: '/bench',
  rule: '',
  decide: '/decision',
  screen: '/bench',
  close: '/closing',
}
