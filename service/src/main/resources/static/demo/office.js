/** What an office's webmaster may add with the API alone: how much is on record, and pollen partners of an apple. */
const evidence = document.querySelector('#evidence');
const chosen = document.querySelector('#variety');
const partners = document.querySelector('#partners');

async function ask(path) {
  const response = await fetch(path, { headers: { Accept: 'application/json' } });
  if (!response.ok) throw new Error(`${path}: ${response.status}`);
  return response.json();
}

async function tellEvidence() {
  const { items } = await ask('/v1/crops');
  const records = items.reduce((sum, crop) => sum + crop.records, 0);
  evidence.textContent = `They rest on ${records.toLocaleString('en-US')} published records about ${items.length} kinds of fruit.`;
}

async function tellPartners() {
  const { items } = await ask(`/v1/varieties/${chosen.value}/partners?limit=4`);
  const list = document.createElement('ul');
  for (const partner of items) {
    const line = document.createElement('li');
    line.textContent = partner.text;
    list.append(line);
  }
  partners.replaceChildren(list);
}

function away(place) {
  return () => {
    place.textContent = 'The service can’t be reached just now. Please look again in a minute.';
    place.className = 'away';
  };
}

chosen.addEventListener('change', () => tellPartners().catch(away(partners)));
tellEvidence().catch(away(evidence));
tellPartners().catch(away(partners));
