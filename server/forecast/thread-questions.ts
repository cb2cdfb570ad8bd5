/** A question that two threads died of is not put to a third. */
const THREADS_MOST = 2;

interface Asked<Question, Answer> {
  question: Question;
  /** Threads that it was put to so far. */
  threads: number;
  resolve: (answer: Answer) => void;
  reject: (error: Error) => void;
}

/** What a thread was asked and has not answered. `put` sends a question to the thread, and says whether there is one. */
export function threadQuestions<Question, Answer>(put: (id: number, question: Question) => boolean) {
  const asked = new Map<number, Asked<Question, Answer>>();
  let newest = 0;
  function send(id: number, one: Asked<Question, Answer>): void {
    if (put(id, one.question)) one.threads += 1;
  }
  function take(id: number): Asked<Question, Answer> | undefined {
    const one = asked.get(id);
    asked.delete(id);
    return one;
  }
  return {
    ask: (question: Question): Promise<Answer> =>
      new Promise((resolve, reject) => {
        const id = (newest += 1);
        const one = { question, threads: 0, resolve, reject };
        asked.set(id, one);
        send(id, one);
      }),
    answered: (id: number, answer: Answer): void => take(id)?.resolve(answer),
    failed: (id: number, error: Error): void => take(id)?.reject(error),
    /** Fails what enough threads have died of. */
    giveUp(died: Error): void {
      for (const [id, { threads }] of asked) if (threads >= THREADS_MOST) take(id)?.reject(died);
    },
    /** Asks the thread that is there now what no thread has answered. */
    askAgain(): void {
      for (const [id, one] of asked) send(id, one);
    },
  };
}
