// Looks a picture's scenes up in the table that came with the page.

const index = (along, positions) => along.reduce((sum, stride, slider) => sum + stride * positions[slider], 0);
const pick = ({ along, values }, positions) => values[index(along, positions)];

// The words and the places of every step, from the packed text in the page.
async function unpack(text) {
  const packed = Uint8Array.from(atob(text), (letter) => letter.charCodeAt(0));
  const opened = new Blob([packed]).stream().pipeThrough(new DecompressionStream("gzip"));
  const whole = await new Response(opened).arrayBuffer();
  const length = new DataView(whole).getUint32(0, true);
  const words = JSON.parse(new TextDecoder().decode(new Uint8Array(whole, 4, length)));
  return { words, places: numbersFrom(new DataView(whole, 4 + length)) };
}

function sceneAt({ words, places }, positions) {
  const counts = words.marks.map(({ count }) => count);
  const numbers = new Int16Array(words.marks.reduce((sum, { count, columns }) => sum + count * columns.length, 0));
  let start = 0;
  for (const { count, columns } of words.marks) {
    columns.forEach((column, across) => {
      const row = column.from + index(column.along, positions) * count;
      for (let i = 0; i < count; i += 1) numbers[start + i * columns.length + across] = places[row + i];
    });
    start += count * columns.length;
  }
  const tables = words.tables.map(({ caption, head, rows }) => ({
    caption: pick(caption, positions),
    head: pick(head, positions),
    rows: rows.map((row) => pick(row, positions)).filter((row) => row !== null),
  })).filter(({ head }) => head !== null);
  return { counts, numbers, sentence: pick(words.sentence, positions), alt: pick(words.alt, positions), tables };
}

try {
  const table = await unpack(document.getElementById("table").textContent);
  const { spec } = table.words;
  const controls = panel(document.getElementById("picture"), spec, {
    move(positions) {
      controls.show(sceneAt(table, positions));
    },
  });
  controls.show(sceneAt(table, spec.sliders.map(({ start }) => start)));
} catch (error) {
  document.getElementById("why").textContent = "This browser is too old to move the picture, or the file came over in part."
    + " Try a newer browser (2023 or later), or copy the file again.";
  throw error;
}
