// A person before the service's pages, by plain requests: opens the page with the form, fills it in, sends it.
import { textOf } from './page-text.ts'

type Fields = Record<string, string>
export type Visitor = {
  /** the page's text; anything but a page is thrown */
  read(path: string): Promise<string>
  /** sends the form that leads to `action` on the page at `path`, and returns where the answer leads */
  send(path: string, action: string, fields: Fields): Promise<string>
}

/** `addresses`: services on one database, who are asked in turn. Cookies are kept by this visitor. */
export function visitor(addresses: string[]): Visitor {
  const cookies = new Map<string, string>()
  let turn = 0
  const ask = async (path: string, body?: URLSearchParams) => {
    const address = addresses[turn++ % addresses.length] ?? ''
    const sent = body === undefined ? {} : { method: 'POST', body }
    const cookie = [...cookies].map(([name, value]) => `${name}=${value}`).join('; ')
    const answer = await fetch(address + path, { ...sent, headers: { origin: address, cookie }, redirect: 'manual' })
    for (const set of answer.headers.getSetCookie()) {
      const [, name = '', value = ''] = /^([^=]+)=([^;]*)/.exec(set) ?? []
      if (value === '') cookies.delete(name)
      else cookies.set(name, value)
    }
    return answer
  }
  const page = async (path: string) => {
    const answer = await ask(path)
    const html = await answer.text()
    if (answer.status !== 200) throw new Error(`${path}: ${answer.status} ${textOf(html)}`)
    return html
  }
  return {
    read: async (path) => textOf(await page(path)),
    async send(path, action, fields) {
      const answer = await ask(action, new URLSearchParams({ ...hiddenIn(await page(path), action), ...fields }))
      if (answer.status !== 303) throw new Error(`${action}: ${answer.status} ${textOf(await answer.text())}`)
      return answer.headers.get('location') ?? ''
    },
  }
}

function hiddenIn(html: string, action: string): Fields {
  const form = [...html.matchAll(/<form method="post".*?<\/form>/gs)].find(
    ([text]) => text.includes(`action="${action}"`) || text.includes(`action="${action}?`),
  )?.[0]
  if (form === undefined) throw new Error(`No form leads to ${action}: ${textOf(html)}`)
  const inputs = [...form.matchAll(/<input\b[^>]*type="hidden"[^>]*>/g)].map(([input]) => [
    / name="([^"]*)"/.exec(input)?.[1] ?? '',
    / value="([^"]*)"/.exec(input)?.[1] ?? '',
  ])
  return Object.fromEntries(inputs)
}

const PASSWORD = 'nine geese cross the ice'

/** From the printed link to the signed decision on a lot of 20 cords, of which two are drawn; everything by one person. */
export async function wholeJob(person: Visitor, link: string): Promise<string> {
  const setUp = new URL(link).pathname
  const first = {
    name: 'Fay First',
    password: PASSWORD,
    passwordAgain: PASSWORD,
    start: 'empty',
    firm: 'Lighthouse Lines',
  }
  await person.send(setUp, setUp, first)
  await person.send('/suppliers', '/suppliers', { name: 'Blue Lantern Leads' })
  await person.send('/items/new', '/items', item)
  const ids = { supplierId: '1', itemId: '1' }
  const packing = { size: '20', cartons: '2', cordsInCarton: '10' }
  const lot = await person.send('/lots/new', '/lots', {
    ...ids,
    ...packing,
    productionMark: 'W31',
    purchaseOrder: 'PO 7',
  })
  await person.send(`${lot}/receipt`, `${lot}/receipt`, packing)
  await person.send(`${lot}/plan/review?own=2%2F0&kind=contract`, `${lot}/plan`, {
    kind: 'contract',
    sampleSize: '2',
    acceptanceNumber: '0',
    reason: 'as the contract has it',
  })
  await person.send(`${lot}/draw/review`, `${lot}/draw`, {})
  for (let cord = 0; cord < 2; cord++) await person.send(`${lot}/bench`, `${lot}/bench`, reading)
  await person.send(`${lot}/decision`, `${lot}/decision`, { outcome: 'accepted', password: PASSWORD })
  return person.read(lot)
}

const item = {
  name: 'Grey cord, 2 m',
  categoryClaimed: 'Category 6A',
  cordLimit: 'the cord limit of the contract, second edition',
  lengthMetres: '2',
  marginalPolicy: 'strict',
  crosstalkAccuracy: '1.2',
  returnLossAccuracy: '1.5',
  tooMany: '5',
  catchOf100: '95',
  costTest: '1.30',
  costEscape: '85',
  costReturn: '200',
}

const reading = {
  kind: 'tested',
  crosstalkSide: 'above',
  crosstalkMargin: '4.6',
  returnLossSide: 'above',
  returnLossMargin: '3.1',
  wireMap: 'in-order',
  visual: 'in-order',
}
