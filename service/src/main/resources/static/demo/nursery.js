/** What a shop's developer adds: how tall each tree on sale becomes, and what happens when the widget's advice is taken. */
const basket = document.querySelector('#basket');
const trees = [...document.querySelectorAll('[name="tree"]')];

function chosen() {
  const tree = trees.find((t) => t.checked);
  if (tree) basket.textContent = `Your choice: Apple ‘Gala’, ${tree.nextElementSibling.textContent}. Order number ${tree.value}.`;
}

async function tellHeights() {
  const pairings = [...document.querySelectorAll('[data-stock]')].map((place) => ({ stock: place.dataset.stock, variety: 'gala' }));
  const response = await fetch('/v1/advice', {
    method: 'POST',
    headers: { 'Content-Type': 'application/json', Accept: 'application/json' },
    body: JSON.stringify({ crop: 'apple', candidates: { pairings }, limit: pairings.length }),
  });
  if (!response.ok) throw new Error(String(response.status));
  const { pairings: advised } = await response.json();
  for (const { stock, expectations } of advised) {
    const { heightM, firstCropYear } = expectations;
    document.querySelector(`[data-stock="${stock.id}"]`).textContent =
      `${heightM.low} to ${heightM.high} m tall, first apples in year ${firstCropYear.low} to ${firstCropYear.high}`;
  }
}

for (const tree of trees) tree.addEventListener('change', chosen);
document.addEventListener('understock-chosen', ({ detail }) => {
  const tree = trees.find((t) => t.value === detail.sku);
  if (!tree) return;
  tree.checked = true;
  chosen();
  basket.scrollIntoView({ block: 'center' });
});
tellHeights().catch(() => {
  for (const place of document.querySelectorAll('[data-stock]')) place.textContent = 'Ask us how tall it grows; the advice service is away just now.';
});
