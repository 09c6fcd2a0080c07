// What is changed in postgres.js 3.4.9, line for line: a lost connection ends neither the process nor a waiting query, and
// nothing is sent in two pieces that could go in one.

export type Change = { from: string; to: string }

/** A file of the package, told by its SHA-256 as it was published and as it is after the changes. */
export type MendedFile = { path: string; published: string; mended: string; changes: Change[] }

/**
 * Upstream has the first as porsager/postgres#1066 and #1154; those for lost connections came up when connections were ended
 * under load, those for fewer round trips when they were counted (test/db/wire.test.ts).
 */
export const mendedFiles: MendedFile[] = [
  {
    path: 'src/connection.js',
    published: 'ee3a218d9aa6a6f2887c1a19da50009335fe84c11a5431d5cab72d6bc528632f',
    mended: '5bce2d9eb53a4c46bbc56bd0e177b0e74527dba1828a6da193e012a2e834c4e3',
    changes: [
      {
        // a transaction that was broken sends its ROLLBACK to a connection without a socket: nothing would ever settle it
        from: `    if (q.cancelled)
      return

    try {
      q.state = backend`,
        to: `    if (q.cancelled)
      return

    if (!socket)
      return (queryError(q, Errors.connection('CONNECTION_CLOSED', options)), true)

    try {
      q.state = backend`,
      },
      {
        // numbers, texts and the like are the same bytes whatever their type is found to be: asking for the types first
        // cost each statement of drizzle a second round trip. Arrays, dates and bytes are still asked about, and what is
        // to stay prepared, once a connection: it is kept when the answer to that has come
        from: '    q.describeFirst = q.onlyDescribe || (parameters.length && !q.prepared)\n',
        to: `    q.describeFirst = q.onlyDescribe || (parameters.length && !q.prepared && (q.prepare || q.tagged || parameters.some(x => typeof x === 'object' && x !== null)))
`,
      },
      {
        // was a TypeError in setImmediate, which nobody can catch: the process ended
        from: '    const x = socket.write(chunk, fn)\n',
        to: '    const x = !socket || socket.write(chunk, fn)\n',
      },
      {
        // a closed connection kept its half-sent bytes, its last query, its last error and its count of rows for the next
        // user, left unsettled what was sent between the socket's error and its end, and tried again without a pause
        from: `    if (initial)
      return reconnect()

    !hadError && (query || sent.length) && error(Errors.connection('CONNECTION_CLOSED', options, socket))
    closedTime = performance.now()
    hadError && options.shared.retries++
    delay = (typeof backoff === 'function' ? backoff(options.shared.retries) : backoff) * 1000
`,
        to: `    error(Errors.connection('CONNECTION_CLOSED', options, socket))
    chunk = nextWriteTimer = query = results = errorResponse = null
    result = new Result()
    rows = 0
    closedTime = performance.now()
    hadError && options.shared.retries++
    delay = (typeof backoff === 'function' ? backoff(options.shared.retries) : backoff) * 1000

    if (initial)
      return reconnect()

`,
      },
      {
        // a connection lost while its types are read was an unhandled rejection: the process ended. Who waits for the connection is told by \`errored\`
        from: '        return fetchArrayTypes()\n',
        to: '        return fetchArrayTypes().catch(noop)\n',
      },
      {
        from: `    query.execute()
  }

  function ErrorResponse(x) {`,
        to: `    query.execute().catch(noop)
  }

  function ErrorResponse(x) {`,
      },
      {
        // a cursor whose connection was lost while its rows were looked at would ask the next connection for the rest
        from: '      const x = await Promise.resolve(query.cursorFn(result))\n',
        to: `      const q = query
      const x = await Promise.resolve(q.cursorFn(result))
      if (q !== query)
        return
`,
      },
    ],
  },
  {
    path: 'src/index.js',
    published: '4e21f5733e70d79cffc10d10d4ef01031de4a9ac862210e43f8870029fd103ed',
    mended: '44b562d7221bd3630206fbe2e95f4448fe079c6f16e3125e25432c2b0dd56f4e',
    changes: [
      {
        from: `    let savepoints = 0
      , connection
      , prepare = null
`,
        to: `    let savepoints = 0
      , connection
      , gone = null
      , taken
      , begins = true
      , prepare = null
`,
      },
      {
        // a transaction has its connection as soon as "begin" is on its way there: what reads first goes with it
        from: `      await sql.unsafe('begin ' + options.replace(/[^a-z ]/ig, ''), [], { onexecute }).execute()
`,
        to: `      const begun = sql.unsafe('begin ' + options.replace(/[^a-z ]/ig, ''), [], { onexecute }).execute()
      await Promise.race([new Promise(resolve => taken = resolve), begun])
      move(connection, reserved)
`,
      },
      {
        // what waits for its turn in a broken transaction is settled
        from: `        new Promise((_, reject) => connection.onclose = reject)
`,
        to: `        new Promise((_, reject) => {
          connection.onclose = e => {
            reject(gone = e)
            while (queries.length)
              queries.shift().reject(e)
          }
          begun.then(() => begins = false, connection.onclose)
        })
`,
      },
      {
        // a transaction that outlived its connection wrote on: into the next transaction there, or into none
        from: `        q.catch(e => uncaughtError || (uncaughtError = e))
        c.queue === full`,
        to: `        q.catch(e => uncaughtError || (uncaughtError = e))
        gone
          ? q.reject(gone)
          : c.queue === full || queries.length || (begins && !/^select/i.test(q.strings[0]))`,
      },
      {
        // should "begin" be refused, only a reading can have been sent after it: nothing is written outside of a transaction
        from: `    function onexecute(c) {
      connection = c
`,
        to: `    function onexecute(c) {
      taken()
      connection = c
`,
      },
      {
        // a statement of one request never waits behind another's that takes long, while a third connection is free again
        from: `    return c.execute(query)
      ? move(c, busy)
      : move(c, full)
`,
        to: `    c.execute(query)
    return move(c, full)
`,
      },
      {
        from: '      ready = c.execute(query)\n',
        to: '      ready = void c.execute(query)\n',
      },
    ],
  },
]
