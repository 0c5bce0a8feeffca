/** pdfmake: the held cows as a table of four columns, in one of the faces every PDF reader has. */
import { answer, asked, peer, took } from './asked.mjs';

const PdfPrinter = peer('pdfmake');
const rows = await asked();
const fonts = { Helvetica: { normal: 'Helvetica', bold: 'Helvetica-Bold' } };
const drawn = () =>
  new Promise((resolve, reject) => {
    const document = new PdfPrinter(fonts).createPdfKitDocument({
      pageSize: 'A4',
      defaultStyle: { font: 'Helvetica', fontSize: 11 },
      content: [{ table: { headerRows: 1, body: [['cow', 'group', 'until', 'tank from'], ...rows] } }],
    });
    let size = 0;
    document.on('data', (piece) => {
      size += piece.length;
    });
    document.on('end', () => resolve(size));
    document.on('error', reject);
    document.end();
  });
await drawn();
answer(await took(drawn));
