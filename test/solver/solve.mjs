// Solves the model on standard input and writes its status. A process of its own, because the solver does not always
// keep to its time limit: whoever starts it kills it.
import loadHighs from 'highs';

let text = '';
for await (const piece of process.stdin) text += piece;
const solver = await loadHighs();
const { Status } = solver.solve(text, { output_flag: false });
process.stdout.write(Status);
