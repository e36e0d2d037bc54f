<?xml version="1.0" encoding="utf-8"?>
<!DOCTYPE TS>
<TS version="2.1" language="de" sourcelanguage="en">
<context>
    <name>PartsRow</name>
    <message>
        <source>Max grain slope</source>
        <translation>Größte Faserneigung</translation>
    </message>
    <message>
        <source>Show faces</source>
        <translation>Sichtflächen</translation>
    </message>
    <message>
        <source>Keep with</source>
        <translation>Zusammen mit</translation>
    </message>
    <message>
        <source>Priority</source>
        <translation>Vorrang</translation>
    </message>
    <message>
        <source>Narrowest strip</source>
        <translation>Schmalster Streifen</translation>
    </message>
    <message>
        <source>Widest strip</source>
        <translation>Breitester Streifen</translation>
    </message>
    <message>
        <source>Name</source>
        <translation>Name</translation>
    </message>
    <message>
        <source>Copies</source>
        <translation>Stückzahl</translation>
    </message>
    <message>
        <source>Length</source>
        <translation>Länge</translation>
    </message>
    <message>
        <source>Width</source>
        <translation>Breite</translation>
    </message>
    <message>
        <source>Thickness</source>
        <translation>Dicke</translation>
    </message>
    <message>
        <source>Grain</source>
        <translation>Faser</translation>
    </message>
    <message>
        <source>Sapwood</source>
        <translation>Splint</translation>
    </message>
    <message>
        <source>Sound knots</source>
        <translation>Feste Äste</translation>
    </message>
    <message>
        <source>Filled holes</source>
        <translation>Gefüllte Löcher</translation>
    </message>
    <message>
        <source>Stain</source>
        <translation>Verfärbung</translation>
    </message>
    <message>
        <source>Sapwood on the back</source>
        <translation>Splint auf der Rückseite</translation>
    </message>
    <message>
        <source>Sound knots on the back</source>
        <translation>Feste Äste auf der Rückseite</translation>
    </message>
    <message>
        <source>Filled holes on the back</source>
        <translation>Gefüllte Löcher auf der Rückseite</translation>
    </message>
    <message>
        <source>Stain on the back</source>
        <translation>Verfärbung auf der Rückseite</translation>
    </message>
    <message>
        <source>Look</source>
        <translation>Ansicht</translation>
    </message>
    <message>
        <source>Species</source>
        <translation>Holzart</translation>
    </message>
    <message>
        <source>Glue up</source>
        <translation>Verleimen</translation>
    </message>
    <message>
        <source>Note</source>
        <translation>Notiz</translation>
    </message>
</context>
<context>
    <name>QObject</name>
    <message>
        <source>thickness</source>
        <translation>Dicke</translation>
    </message>
    <message>
        <source>Measure the thickness and enter it below.</source>
        <translation>Die Dicke messen und unten eingeben.</translation>
    </message>
    <message>
        <source>species</source>
        <translation>Holzart</translation>
    </message>
    <message>
        <source>Enter what wood it is, so that parts can ask for it.</source>
        <translation>Eingeben, was für Holz es ist, damit Teile danach verlangen können.</translation>
    </message>
    <message>
        <source>face A</source>
        <translation>Seite A</translation>
    </message>
    <message>
        <source>Photograph face A with the cards lying on it.</source>
        <translation>Seite A fotografieren, die Karten darauf.</translation>
    </message>
    <message>
        <source>face B</source>
        <translation>Seite B</translation>
    </message>
    <message>
        <source>Turn the board over and photograph the other face; a face not photographed is unseen, not clear.</source>
        <translation>Das Brett wenden und die andere Seite fotografieren; eine nicht fotografierte Seite ist ungesehen, nicht fehlerfrei.</translation>
    </message>
    <message>
        <source>clear outline</source>
        <translation>klarer Umriss</translation>
    </message>
    <message>
        <source>Part of the edge was hard to see (dashed). Redraw it with the Outline tool or retake the picture.</source>
        <translation>Ein Teil der Kante war schwer zu sehen (gestrichelt). Mit dem Werkzeug Umriss neu zeichnen oder das Foto wiederholen.</translation>
    </message>
    <message>
        <source>1 suggestion to review</source>
        <translation>1 Vorschlag zu prüfen</translation>
    </message>
    <message>
        <source>%1 suggestions to review</source>
        <translation>%1 Vorschläge zu prüfen</translation>
    </message>
    <message>
        <source>Accept or refuse each suggestion; until then none of them counts.</source>
        <translation>Jeden Vorschlag annehmen oder ablehnen; bis dahin zählt keiner.</translation>
    </message>
    <message>
        <source>a look over face A</source>
        <translation>ein Blick auf Seite A</translation>
    </message>
    <message>
        <source>a look over face B</source>
        <translation>ein Blick auf Seite B</translation>
    </message>
    <message>
        <source>Mark what a part may not hold, then tick that the face is looked over.</source>
        <translation>Markieren, was ein Teil nicht haben darf, dann abhaken, dass die Seite durchgesehen ist.</translation>
    </message>
    <message>
        <source>Measured: %1 long</source>
        <translation>Gemessen: %1 lang</translation>
    </message>
    <message>
        <source>, %1 wide in the middle</source>
        <translation>, %1 breit in der Mitte</translation>
    </message>
    <message>
        <source>Best looks</source>
        <translation>Schönste Ansicht</translation>
    </message>
    <message>
        <source>Least wood</source>
        <translation>Wenigstes Holz</translation>
    </message>
    <message>
        <source>Fewest cuts</source>
        <translation>Wenigste Schnitte</translation>
    </message>
    <message>
        <source>Balanced</source>
        <translation>Ausgewogen</translation>
    </message>
    <message>
        <source>Each part where the wood suits it best, even if another board is opened.</source>
        <translation>Jedes Teil dort, wo ihm das Holz am besten steht, auch wenn dafür ein weiteres Brett angeschnitten wird.</translation>
    </message>
    <message>
        <source>All that fits, from as little wood as can be.</source>
        <translation>Alles, was passt, aus so wenig Holz wie möglich.</translation>
    </message>
    <message>
        <source>Of several good plans, the one with the fewest cuts.</source>
        <translation>Von mehreren guten Plänen der mit den wenigsten Schnitten.</translation>
    </message>
    <message>
        <source>As many parts as fit, with an eye to looks.</source>
        <translation>So viele Teile wie möglich, mit einem Auge auf die Ansicht.</translation>
    </message>
    <message>
        <source>rack %1</source>
        <translation>Lager %1</translation>
    </message>
    <message>
        <source>rack %1 (%2)</source>
        <translation>Lager %1 (%2)</translation>
    </message>
    <message>
        <source>straight grain</source>
        <translation>schlicht</translation>
    </message>
    <message>
        <source>arch in the middle</source>
        <translation>Fladern in der Mitte</translation>
    </message>
    <message>
        <source>lively</source>
        <translation>lebhaft</translation>
    </message>
    <message>
        <source>even colour</source>
        <translation>gleichmäßige Farbe</translation>
    </message>
    <message>
        <source>any</source>
        <translation>beliebig</translation>
    </message>
    <message>
        <source>Still to be typed: %1.</source>
        <translation>Noch einzutippen: %1.</translation>
    </message>
    <message>
        <source>1 card seen. Ready to be measured; two or three cards along the board measure better.</source>
        <translation>1 Karte gesehen. Bereit zum Messen; mit zwei oder drei Karten entlang des Bretts wird es genauer.</translation>
    </message>
    <message>
        <source>%1 cards seen. Ready to be measured.</source>
        <translation>%1 Karten gesehen. Bereit zum Messen.</translation>
    </message>
    <message>
        <source>Being measured …</source>
        <translation>Wird gemessen …</translation>
    </message>
    <message>
        <source>Saws</source>
        <translation>Sägen</translation>
    </message>
    <message>
        <source>Measure a kerf: cut a scrap in two and see by how much both halves together are shorter than it was.</source>
        <translation>Eine Schnittfuge messen: ein Reststück durchsägen und sehen, um wie viel beide Hälften zusammen kürzer sind als zuvor.</translation>
    </message>
    <message>
        <source>Crosscut kerf</source>
        <translation>Schnittfuge quer</translation>
    </message>
    <message>
        <source>Lost at every cut across the board.</source>
        <translation>Geht bei jedem Schnitt quer zum Brett verloren.</translation>
    </message>
    <message>
        <source>Rip kerf</source>
        <translation>Schnittfuge längs</translation>
    </message>
    <message>
        <source>Lost at every cut along the board.</source>
        <translation>Geht bei jedem Schnitt längs des Bretts verloren.</translation>
    </message>
    <message>
        <source>First rip kerf</source>
        <translation>Schnittfuge beim Besäumen</translation>
    </message>
    <message>
        <source>The straight line laid on a rough edge, by bandsaw or guided saw.</source>
        <translation>Die gerade Linie an einer rohen Kante, mit Bandsäge oder geführter Säge.</translation>
    </message>
    <message>
        <source>End trim</source>
        <translation>Endabschnitt</translation>
    </message>
    <message>
        <source>Rough ends hide checks and grit: so much comes off each end first.</source>
        <translation>Rohe Enden verbergen Risse und Sand: so viel fällt an jedem Ende zuerst.</translation>
    </message>
    <message>
        <source>Allowances for milling</source>
        <translation>Zugaben zum Hobeln</translation>
    </message>
    <message>
        <source>Added to the finished size of each part; more is safer, less saves wood.</source>
        <translation>Kommen zum Fertigmaß jedes Teils; mehr ist sicherer, weniger spart Holz.</translation>
    </message>
    <message>
        <source>In length</source>
        <translation>In der Länge</translation>
    </message>
    <message>
        <source>Snipe, and squaring both ends.</source>
        <translation>Einfallen beim Hobeln und Winkeln beider Enden.</translation>
    </message>
    <message>
        <source>In width</source>
        <translation>In der Breite</translation>
    </message>
    <message>
        <source>Jointing both edges.</source>
        <translation>Fügen beider Kanten.</translation>
    </message>
    <message>
        <source>In thickness</source>
        <translation>In der Dicke</translation>
    </message>
    <message>
        <source>Flattening and planing both faces.</source>
        <translation>Abrichten und Hobeln beider Flächen.</translation>
    </message>
    <message>
        <source>Long parts, from</source>
        <translation>Lange Teile, ab</translation>
    </message>
    <message>
        <source>Long parts keep more bow, and get the next allowance instead.</source>
        <translation>Lange Teile behalten mehr Verzug und bekommen stattdessen die nächste Zugabe.</translation>
    </message>
    <message>
        <source>In thickness, long parts</source>
        <translation>In der Dicke, lange Teile</translation>
    </message>
    <message>
        <source>Flattening a long part takes more.</source>
        <translation>Ein langes Teil abzurichten nimmt mehr weg.</translation>
    </message>
    <message>
        <source>Least take-off</source>
        <translation>Kleinste Spanabnahme</translation>
    </message>
    <message>
        <source>What a pass must take to clean up one face.</source>
        <translation>Was ein Durchgang abnehmen muss, um eine Fläche sauber zu machen.</translation>
    </message>
    <message>
        <source>Rest allowance</source>
        <translation>Ruhezugabe</translation>
    </message>
    <message>
        <source>Left on after the first milling of show parts and wide parts, which then rest and move.</source>
        <translation>Bleibt nach dem ersten Hobeln von Sichtteilen und breiten Teilen stehen, die dann ruhen und arbeiten.</translation>
    </message>
    <message>
        <source>Wide parts, from</source>
        <translation>Breite Teile, ab</translation>
    </message>
    <message>
        <source>From this rough width on, parts are milled twice with a rest between.</source>
        <translation>Ab dieser rohen Breite werden Teile zweimal gehobelt, mit Ruhe dazwischen.</translation>
    </message>
    <message>
        <source>Per glue line edge</source>
        <translation>Je Kante einer Leimfuge</translation>
    </message>
    <message>
        <source>Jointing takes it off each edge that is glued.</source>
        <translation>Das Fügen nimmt sie von jeder verleimten Kante ab.</translation>
    </message>
    <message>
        <source>Machines</source>
        <translation>Maschinen</translation>
    </message>
    <message>
        <source>The manual of the machine rules; where it asks for more, enter more.</source>
        <translation>Die Betriebsanleitung der Maschine gilt; verlangt sie mehr, mehr eintragen.</translation>
    </message>
    <message>
        <source>Jointer width</source>
        <translation>Breite der Abrichte</translation>
    </message>
    <message>
        <source>Blanks wider than this cannot be flattened on it.</source>
        <translation>Breitere Rohlinge können auf ihr nicht abgerichtet werden.</translation>
    </message>
    <message>
        <source>Planer width</source>
        <translation>Breite des Dickenhobels</translation>
    </message>
    <message>
        <source>Blanks wider than this do not go through it.</source>
        <translation>Breitere Rohlinge gehen nicht hindurch.</translation>
    </message>
    <message>
        <source>Snipe</source>
        <translation>Einfallen am Ende</translation>
    </message>
    <message>
        <source>Length spoiled at each end, when there is no other allowance.</source>
        <translation>Länge, die an jedem Ende verdorben ist, wenn es keine andere Zugabe gibt.</translation>
    </message>
    <message>
        <source>Shortest safe piece</source>
        <translation>Kürzestes sicheres Stück</translation>
    </message>
    <message>
        <source>Shorter pieces are milled together and cut apart afterwards. Short pieces kick back and draw hands to the knives.</source>
        <translation>Kürzere Stücke werden zusammen gehobelt und danach getrennt. Kurze Stücke schlagen zurück und ziehen die Hände zu den Messern.</translation>
    </message>
    <message>
        <source>Narrowest safe piece</source>
        <translation>Schmalstes sicheres Stück</translation>
    </message>
    <message>
        <source>Narrower pieces are milled together and ripped apart afterwards.</source>
        <translation>Schmalere Stücke werden zusammen gehobelt und danach aufgetrennt.</translation>
    </message>
    <message>
        <source>Offcuts and moisture</source>
        <translation>Reststücke und Holzfeuchte</translation>
    </message>
    <message>
        <source>Keep offcuts from, length</source>
        <translation>Reststücke aufheben ab, Länge</translation>
    </message>
    <message>
        <source>Shorter offcuts do not go back on the rack.</source>
        <translation>Kürzere Reststücke kommen nicht zurück ins Lager.</translation>
    </message>
    <message>
        <source>Keep offcuts from, width</source>
        <translation>Reststücke aufheben ab, Breite</translation>
    </message>
    <message>
        <source>Narrower offcuts do not go back on the rack.</source>
        <translation>Schmalere Reststücke kommen nicht zurück ins Lager.</translation>
    </message>
    <message>
        <source>Moisture of the shop</source>
        <translation>Holzfeuchte der Werkstatt</translation>
    </message>
    <message>
        <source>What wood settles at here. Wetter boards shrink, and their blanks are planned larger.</source>
        <translation>Worauf sich Holz hier einstellt. Feuchtere Bretter schwinden, und ihre Rohlinge werden größer geplant.</translation>
    </message>
    <message>
        <source>How much a plan minds</source>
        <translation>Worauf ein Plan achtet</translation>
    </message>
    <message>
        <source>The choice of aim beside the plan sets these three; finer settings are made here.</source>
        <translation>Das Ziel neben dem Plan stellt diese drei ein; feiner geht es hier.</translation>
    </message>
    <message>
        <source>Looks</source>
        <translation>Ansichten</translation>
    </message>
    <message>
        <source>0: anywhere sound will do. 1: a place with all that was wished for counts twice.</source>
        <translation>0: jede gesunde Stelle ist recht. 1: eine Stelle mit allem Gewünschten zählt doppelt.</translation>
    </message>
    <message>
        <source>Wood used</source>
        <translation>Holzverbrauch</translation>
    </message>
    <message>
        <source>0: boards cost nothing. Greater: fewer and cheaper boards are cut into.</source>
        <translation>0: Bretter kosten nichts. Größer: weniger und billigere Bretter werden angeschnitten.</translation>
    </message>
    <message>
        <source>Useful offcuts</source>
        <translation>Nützliche Reststücke</translation>
    </message>
    <message>
        <source>Greater: what is left over is kept in large pieces.</source>
        <translation>Größer: was übrig bleibt, bleibt in großen Stücken.</translation>
    </message>
    <message>
        <source>%1 %</source>
        <translation>%1 %</translation>
    </message>
    <message>
        <source>frees %1</source>
        <translation>ergibt %1</translation>
    </message>
    <message>
        <source>board %1</source>
        <translation>Brett %1</translation>
    </message>
    <message>
        <source>part deleted</source>
        <translation>Teil gelöscht</translation>
    </message>
    <message>
        <source>none; nothing that is left would hold it.</source>
        <translation>keines; nichts Übriges würde es hergeben.</translation>
    </message>
    <message>
        <source>%1, on which nothing is planned.</source>
        <translation>%1, auf dem nichts geplant ist.</translation>
    </message>
    <message>
        <source>%1, in the offcut from %2 along, %3 in.</source>
        <translation>%1, im Reststück ab %2 längs, %3 quer.</translation>
    </message>
    <message>
        <source>, face A up</source>
        <translation>, Seite A oben</translation>
    </message>
    <message>
        <source>, face B up</source>
        <translation>, Seite B oben</translation>
    </message>
    <message>
        <source>, end for end</source>
        <translation>, Ende für Ende</translation>
    </message>
    <message>
        <source>All %1 pieces placed.</source>
        <translation>Alle %1 Stücke untergebracht.</translation>
    </message>
    <message>
        <source>%1 of %2 pieces placed.</source>
        <translation>%1 von %2 Stücken untergebracht.</translation>
    </message>
    <message>
        <source>1 board opened</source>
        <translation>1 Brett angeschnitten</translation>
    </message>
    <message>
        <source>%1 boards opened</source>
        <translation>%1 Bretter angeschnitten</translation>
    </message>
    <message>
        <source>1 cut</source>
        <translation>1 Schnitt</translation>
    </message>
    <message>
        <source>%1 cuts</source>
        <translation>%1 Schnitte</translation>
    </message>
    <message>
        <source>%1 % of the wood used</source>
        <translation>%1 % des Holzes genutzt</translation>
    </message>
    <message>
        <source>wood for %1</source>
        <translation>Holz für %1</translation>
    </message>
    <message>
        <source>poorest look %1 of 100 (%2)</source>
        <translation>schwächste Ansicht %1 von 100 (%2)</translation>
    </message>
    <message>
        <source>1 row of the parts list is unfinished and not planned.</source>
        <translation>1 Zeile der Stückliste ist unfertig und nicht geplant.</translation>
    </message>
    <message>
        <source>%1 rows of the parts list are unfinished and not planned.</source>
        <translation>%1 Zeilen der Stückliste sind unfertig und nicht geplant.</translation>
    </message>
    <message>
        <source>%1 (face %2)</source>
        <translation>%1 (Seite %2)</translation>
    </message>
    <message>
        <source>Nobody has looked over: board %1.</source>
        <translation>Niemand hat durchgesehen: Brett %1.</translation>
    </message>
    <message>
        <source>%1, %2: %3.</source>
        <translation>%1, %2: %3.</translation>
    </message>
    <message>
        <source>one blank</source>
        <translation>ein Rohling</translation>
    </message>
    <message>
        <source>%1 blanks</source>
        <translation>%1 Rohlinge</translation>
    </message>
    <message>
        <source>&lt;h2&gt;How a job goes&lt;/h2&gt;&lt;ol&gt;&lt;li&gt;&lt;b&gt;Photographs.&lt;/b&gt; Lay printed cards along each board, its numbered tag in view, and take the picture from above. Drop the pictures on the window.&lt;/li&gt;&lt;li&gt;&lt;b&gt;Wood.&lt;/b&gt; Look over the outline: a solid line was seen, a dashed one is doubtful, a dotted one was hidden by a card and bridged, dash and dot was drawn by you. Mark what a part may not hold.&lt;/li&gt;&lt;li&gt;&lt;b&gt;Parts.&lt;/b&gt; Type the parts list or paste it from a spreadsheet.&lt;/li&gt;&lt;li&gt;&lt;b&gt;Looks.&lt;/b&gt; See each part cut out of every board that can give it, the best-looking first, and lay the strips of a panel in order.&lt;/li&gt;&lt;li&gt;&lt;b&gt;Plan.&lt;/b&gt; Let the parts be placed; move and pin what you want elsewhere.&lt;/li&gt;&lt;li&gt;&lt;b&gt;Paper.&lt;/b&gt; Print the sheets, cards and labels.&lt;/li&gt;&lt;li&gt;&lt;b&gt;Cut.&lt;/b&gt; Tick the cuts as they are made; record a miscut, mark a defect that came to light, and the rest is planned anew.&lt;/li&gt;&lt;/ol&gt;&lt;p&gt;Everything is saved by itself and can be undone.&lt;/p&gt;</source>
        <translation>&lt;h2&gt;Wie eine Arbeit geht&lt;/h2&gt;&lt;ol&gt;&lt;li&gt;&lt;b&gt;Fotos.&lt;/b&gt; Gedruckte Karten an jedem Brett entlang legen, die nummerierte Marke im Bild, und von oben aufnehmen. Die Bilder auf dem Fenster ablegen.&lt;/li&gt;&lt;li&gt;&lt;b&gt;Holz.&lt;/b&gt; Den Umriss durchsehen: durchgezogen wurde er gesehen, gestrichelt ist er zweifelhaft, gepunktet lag eine Karte darüber und er ist überbrückt, Strich und Punkt haben Sie gezeichnet. Markieren, was ein Teil nicht haben darf.&lt;/li&gt;&lt;li&gt;&lt;b&gt;Teile.&lt;/b&gt; Die Stückliste eintippen oder aus einer Tabelle einfügen.&lt;/li&gt;&lt;li&gt;&lt;b&gt;Ansichten.&lt;/b&gt; Jedes Teil aus jedem Brett sehen, das es hergibt, das schönste zuerst, und die Streifen einer Platte ordnen.&lt;/li&gt;&lt;li&gt;&lt;b&gt;Plan.&lt;/b&gt; Die Teile legen lassen; verschieben und feststecken, was anderswo sein soll.&lt;/li&gt;&lt;li&gt;&lt;b&gt;Blätter.&lt;/b&gt; Blätter, Karten und Etiketten drucken.&lt;/li&gt;&lt;li&gt;&lt;b&gt;Zuschnitt.&lt;/b&gt; Die Schnitte abhaken, wie sie gemacht werden; einen Fehlschnitt eintragen, einen Fehler markieren, der zutage kam, und der Rest wird neu geplant.&lt;/li&gt;&lt;/ol&gt;&lt;p&gt;Alles wird von selbst gesichert und kann zurückgenommen werden.&lt;/p&gt;</translation>
    </message>
    <message>
        <source>&lt;h3&gt;Kinds of mark&lt;/h3&gt;</source>
        <translation>&lt;h3&gt;Arten von Markierungen&lt;/h3&gt;</translation>
    </message>
    <message>
        <source>&lt;h2&gt;Keys&lt;/h2&gt;</source>
        <translation>&lt;h2&gt;Tasten&lt;/h2&gt;</translation>
    </message>
    <message>
        <source>Anywhere</source>
        <translation>Überall</translation>
    </message>
    <message>
        <source>Photographs, Wood, Parts, Looks, Plan, Paper, Cut, Shop</source>
        <translation>Fotos, Holz, Teile, Ansichten, Plan, Blätter, Zuschnitt, Werkstatt</translation>
    </message>
    <message>
        <source>start a rack, open one</source>
        <translation>ein Lager anlegen, eines öffnen</translation>
    </message>
    <message>
        <source>undo, redo</source>
        <translation>zurücknehmen, wiederholen</translation>
    </message>
    <message>
        <source>next, previous board</source>
        <translation>nächstes, voriges Brett</translation>
    </message>
    <message>
        <source>find a board</source>
        <translation>ein Brett suchen</translation>
    </message>
    <message>
        <source>to the list, to the board</source>
        <translation>zur Liste, zum Brett</translation>
    </message>
    <message>
        <source>millimetres or inches</source>
        <translation>Millimeter oder Zoll</translation>
    </message>
    <message>
        <source>light or dark</source>
        <translation>hell oder dunkel</translation>
    </message>
    <message>
        <source>in the list of cuts: made, or not after all</source>
        <translation>in der Liste der Schnitte: gemacht, oder doch nicht</translation>
    </message>
    <message>
        <source>enter boards by tape</source>
        <translation>Bretter mit dem Maßband aufnehmen</translation>
    </message>
    <message>
        <source>find an action</source>
        <translation>eine Aktion suchen</translation>
    </message>
    <message>
        <source>this page</source>
        <translation>diese Seite</translation>
    </message>
    <message>
        <source>On the board</source>
        <translation>Auf dem Brett</translation>
    </message>
    <message>
        <source>select, move and reshape marks</source>
        <translation>Markierungen auswählen, verschieben und umformen</translation>
    </message>
    <message>
        <source>draw an area, an ellipse, a line</source>
        <translation>eine Fläche, eine Ellipse, eine Linie zeichnen</translation>
    </message>
    <message>
        <source>kind of mark to draw</source>
        <translation>Art der Markierung, die gezeichnet wird</translation>
    </message>
    <message>
        <source>look for marks: suggestions, which count for nothing until accepted</source>
        <translation>Markierungen suchen: Vorschläge, die erst zählen, wenn sie angenommen sind</translation>
    </message>
    <message>
        <source>accept or refuse the selected suggestion; the next one follows</source>
        <translation>den ausgewählten Vorschlag annehmen oder ablehnen; der nächste folgt</translation>
    </message>
    <message>
        <source>accept all suggestions that are sure enough</source>
        <translation>alle Vorschläge annehmen, die sicher genug sind</translation>
    </message>
    <message>
        <source>redraw a stretch of the outline</source>
        <translation>ein Stück des Umrisses neu zeichnen</translation>
    </message>
    <message>
        <source>measure</source>
        <translation>messen</translation>
    </message>
    <message>
        <source>place parts (under Plan)</source>
        <translation>Teile legen (unter Plan)</translation>
    </message>
    <message>
        <source>the other face, in the same place</source>
        <translation>die andere Seite, an derselben Stelle</translation>
    </message>
    <message>
        <source>flip the view end for end</source>
        <translation>Ansicht umdrehen, Ende für Ende</translation>
    </message>
    <message>
        <source>zoom in, zoom out, fit the board</source>
        <translation>vergrößern, verkleinern, Brett einpassen</translation>
    </message>
    <message>
        <source>move the view; while drawing, move the cross (Shift: finely)</source>
        <translation>Ansicht verschieben; beim Zeichnen das Kreuz verschieben (Umschalt: fein)</translation>
    </message>
    <message>
        <source>set a point at the cross; set the last one</source>
        <translation>einen Punkt beim Kreuz setzen; den letzten setzen</translation>
    </message>
    <message>
        <source>take a point back; drop what is half drawn</source>
        <translation>einen Punkt zurücknehmen; halb Gezeichnetes verwerfen</translation>
    </message>
    <message>
        <source>with Select: next mark, nudge it, remove it</source>
        <translation>mit Auswählen: nächste Markierung, sie schubsen, sie entfernen</translation>
    </message>
    <message>
        <source>show or hide picture, outline, marks, parts, cuts</source>
        <translation>Bild, Umriss, Markierungen, Teile, Schnitte zeigen oder verbergen</translation>
    </message>
    <message>
        <source>With the mouse</source>
        <translation>Mit der Maus</translation>
    </message>
    <message>
        <source>zoom about the pointer</source>
        <translation>um den Zeiger vergrößern und verkleinern</translation>
    </message>
    <message>
        <source>drag the view</source>
        <translation>Ansicht ziehen</translation>
    </message>
    <message>
        <source>drag the view; with Ctrl zoom</source>
        <translation>Ansicht ziehen; mit Strg vergrößern und verkleinern</translation>
    </message>
    <message>
        <source> (%1 until the print of the cards is checked)</source>
        <translation> (%1, bis der Druck der Karten geprüft ist)</translation>
    </message>
    <message>
        <source>This plan no longer holds: %1.</source>
        <translation>Dieser Plan gilt nicht mehr: %1.</translation>
    </message>
    <message>
        <source>This plan no longer holds: %1, and one board more.</source>
        <translation>Dieser Plan gilt nicht mehr: %1, und ein weiteres Brett.</translation>
    </message>
    <message>
        <source>This plan no longer holds: %1, and %2 boards more.</source>
        <translation>Dieser Plan gilt nicht mehr: %1, und %2 weitere Bretter.</translation>
    </message>
    <message>
        <source>Plan again; cuts that were made are kept.</source>
        <translation>Neu planen; ausgeführte Schnitte bleiben.</translation>
    </message>
    <message>
        <source>Changed since this plan: %1. Plan again to take it in.</source>
        <translation>Seit diesem Plan geändert: %1. Neu planen, um es zu berücksichtigen.</translation>
    </message>
</context>
<context>
    <name>rackside::ActionFinder</name>
    <message>
        <source>Find an action</source>
        <translation>Aktion suchen</translation>
    </message>
    <message>
        <source>What do you want to do?</source>
        <translation>Was möchten Sie tun?</translation>
    </message>
    <message>
        <source>Actions</source>
        <translation>Aktionen</translation>
    </message>
</context>
<context>
    <name>rackside::BoardDelegate</name>
    <message>
        <source>%1 bd ft</source>
        <translation>%1 bd ft</translation>
    </message>
    <message>
        <source>missing: %1</source>
        <translation>es fehlt: %1</translation>
    </message>
    <message>
        <source>1 piece planned</source>
        <translation>1 Stück geplant</translation>
    </message>
    <message>
        <source>%1 pieces planned</source>
        <translation>%1 Stücke geplant</translation>
    </message>
</context>
<context>
    <name>rackside::BoardPage</name>
    <message>
        <source>Face A</source>
        <translation>Seite A</translation>
    </message>
    <message>
        <source>Face B</source>
        <translation>Seite B</translation>
    </message>
    <message>
        <source>F goes to the other face</source>
        <translation>F geht zur anderen Seite</translation>
    </message>
    <message>
        <source>Other face</source>
        <translation>Andere Seite</translation>
    </message>
    <message>
        <source>Flip view</source>
        <translation>Ansicht umdrehen</translation>
    </message>
    <message>
        <source>Left and right change places, as when the board is rolled over end for end (T). Measures and marks stay where they are in the wood.</source>
        <translation>Links und rechts tauschen die Plätze, als wäre das Brett Ende für Ende gewendet (T). Maße und Markierungen bleiben, wo sie im Holz sind.</translation>
    </message>
    <message>
        <source>Flipped</source>
        <translation>Umgedreht</translation>
    </message>
    <message>
        <source>Zoom out (−)</source>
        <translation>Verkleinern (−)</translation>
    </message>
    <message>
        <source>Zoom in (+)</source>
        <translation>Vergrößern (+)</translation>
    </message>
    <message>
        <source>Fit</source>
        <translation>Einpassen</translation>
    </message>
    <message>
        <source>Fit the board (0)</source>
        <translation>Brett einpassen (0)</translation>
    </message>
    <message>
        <source>The kind of mark to draw (K)</source>
        <translation>Art der Markierung, die gezeichnet wird (K)</translation>
    </message>
    <message>
        <source>Kind of mark</source>
        <translation>Art der Markierung</translation>
    </message>
    <message>
        <source>Show</source>
        <translation>Zeigen</translation>
    </message>
    <message>
        <source>Picture</source>
        <translation>Bild</translation>
    </message>
    <message>
        <source>Outline</source>
        <translation>Umriss</translation>
    </message>
    <message>
        <source>Marks</source>
        <translation>Markierungen</translation>
    </message>
    <message>
        <source>Planned parts</source>
        <translation>Geplante Teile</translation>
    </message>
    <message>
        <source>Cuts</source>
        <translation>Schnitte</translation>
    </message>
</context>
<context>
    <name>rackside::BoardPanel</name>
    <message>
        <source>e.g. cherry</source>
        <translation>z. B. Kirsche</translation>
    </message>
    <message>
        <source>e.g. left bay, shelf 2</source>
        <translation>z. B. linkes Fach, Boden 2</translation>
    </message>
    <message>
        <source>not entered</source>
        <translation>nicht angegeben</translation>
    </message>
    <message>
        <source> sawn</source>
        <translation> geschnitten</translation>
    </message>
    <message>
        <source>face A</source>
        <translation>Seite A</translation>
    </message>
    <message>
        <source>face B</source>
        <translation>Seite B</translation>
    </message>
    <message>
        <source> %</source>
        <translation> %</translation>
    </message>
    <message>
        <source>not measured</source>
        <translation>nicht gemessen</translation>
    </message>
    <message>
        <source>What the moisture meter shows. Wood wetter than the shop shrinks before it is milled: its blanks are planned so much larger.</source>
        <translation>Was das Holzfeuchtemessgerät zeigt. Holz, das feuchter ist als die Werkstatt, schwindet vor dem Hobeln: seine Rohlinge werden um so viel größer geplant.</translation>
    </message>
    <message>
        <source>on the rack</source>
        <translation>im Lager</translation>
    </message>
    <message>
        <source>set aside</source>
        <translation>beiseitegestellt</translation>
    </message>
    <message>
        <source>sold</source>
        <translation>verkauft</translation>
    </message>
    <message>
        <source>reserved</source>
        <translation>reserviert</translation>
    </message>
    <message>
        <source>Nothing is planned on a board that is set aside, sold or reserved.</source>
        <translation>Auf einem Brett, das beiseitegestellt, verkauft oder reserviert ist, wird nichts geplant.</translation>
    </message>
    <message>
        <source>the reason, the buyer or the project</source>
        <translation>der Grund, der Käufer oder das Vorhaben</translation>
    </message>
    <message>
        <source>&amp;Name</source>
        <translation>&amp;Name</translation>
    </message>
    <message>
        <source>Spe&amp;cies</source>
        <translation>&amp;Holzart</translation>
    </message>
    <message>
        <source>&amp;Thickness</source>
        <translation>&amp;Dicke</translation>
    </message>
    <message>
        <source>&amp;Location</source>
        <translation>&amp;Lagerplatz</translation>
    </message>
    <message>
        <source>Sa&amp;wn</source>
        <translation>&amp;Einschnitt</translation>
    </message>
    <message>
        <source>Bar&amp;k side</source>
        <translation>&amp;Rindenseite</translation>
    </message>
    <message>
        <source>&amp;Moisture</source>
        <translation>Holz&amp;feuchte</translation>
    </message>
    <message>
        <source>&amp;Price per board foot</source>
        <translation>&amp;Preis je Board Foot</translation>
    </message>
    <message>
        <source>Note</source>
        <translation>Notiz</translation>
    </message>
    <message>
        <source>S&amp;tate</source>
        <translation>&amp;Stand</translation>
    </message>
    <message>
        <source>About the board</source>
        <translation>Über das Brett</translation>
    </message>
    <message>
        <source>Length %1</source>
        <translation>Länge %1</translation>
    </message>
    <message>
        <source>Width %1 to %2 %3</source>
        <translation>Breite %1 bis %2 %3</translation>
    </message>
    <message>
        <source>%1 board feet, surface measure %2 ft²</source>
        <translation>%1 Board Feet, Flächenmaß %2 ft²</translation>
    </message>
    <message>
        <source>Face B lies on face A within %1</source>
        <translation>Seite B liegt auf Seite A bis auf %1</translation>
    </message>
    <message>
        <source>No board chosen</source>
        <translation>Kein Brett ausgewählt</translation>
    </message>
    <message>
        <source>Board %1 · tag %2</source>
        <translation>Brett %1 · Marke %2</translation>
    </message>
    <message>
        <source>Board %1</source>
        <translation>Brett %1</translation>
    </message>
    <message>
        <source>Missing: %1. %2</source>
        <translation>Es fehlt: %1. %2</translation>
    </message>
</context>
<context>
    <name>rackside::CardsWindow</name>
    <message>
        <source>Print cards and tags</source>
        <translation>Karten und Marken drucken</translation>
    </message>
    <message>
        <source>A4</source>
        <translation>A4</translation>
    </message>
    <message>
        <source>US Letter</source>
        <translation>US Letter</translation>
    </message>
    <message>
        <source>Save &amp;cards as PDF …</source>
        <translation>&amp;Karten als PDF sichern …</translation>
    </message>
    <message>
        <source>Save &amp;tags as PDF …</source>
        <translation>&amp;Marken als PDF sichern …</translation>
    </message>
    <message>
        <source>Print at 100 %, never fitted to the page, and check the bar on each sheet with a steel rule. Cards are glued to flat strips and lie along the board, three to a board; a tag stays on its board and gives it its number.</source>
        <translation>Mit 100 % drucken, nie auf die Seite eingepasst, und die Prüfstrecke auf jedem Blatt mit einem Stahlmaß nachmessen. Karten werden auf ebene Leisten geklebt und liegen am Brett entlang, drei je Brett; eine Marke bleibt an ihrem Brett und gibt ihm seine Nummer.</translation>
    </message>
    <message>
        <source>&amp;Paper</source>
        <translation>&amp;Papier</translation>
    </message>
    <message>
        <source>Cards, &amp;how many</source>
        <translation>&amp;Anzahl der Karten</translation>
    </message>
    <message>
        <source>Tags &amp;from</source>
        <translation>Marken &amp;von</translation>
    </message>
    <message>
        <source>t&amp;o</source>
        <translation>&amp;bis</translation>
    </message>
    <message>
        <source>Save as PDF</source>
        <translation>Als PDF sichern</translation>
    </message>
    <message>
        <source>PDF (*.pdf)</source>
        <translation>PDF (*.pdf)</translation>
    </message>
    <message>
        <source>Saved to %1. Print it at 100 %.</source>
        <translation>In %1 gesichert. Mit 100 % drucken.</translation>
    </message>
</context>
<context>
    <name>rackside::CutPanel</name>
    <message>
        <source>Cuts of the board in working order</source>
        <translation>Schnitte des Bretts in der Reihenfolge der Arbeit</translation>
    </message>
    <message>
        <source>Plan the &amp;rest again</source>
        <translation>Den &amp;Rest neu planen</translation>
    </message>
    <message>
        <source>&amp;Finish this board</source>
        <translation>Dieses Brett &amp;abschließen</translation>
    </message>
    <message>
        <source>Offcuts large enough to keep go back on the rack as boards.</source>
        <translation>Reststücke, die groß genug sind, kommen als Bretter zurück ins Lager.</translation>
    </message>
    <message>
        <source>A defect came to light? Mark it on the board as under Wood, then plan the rest again: what is cut stays, what no longer stands finds another place.</source>
        <translation>Ein Fehler kam zutage? Auf dem Brett markieren wie unter Holz, dann den Rest neu planen: was geschnitten ist, bleibt, was nicht mehr geht, bekommt einen anderen Platz.</translation>
    </message>
    <message>
        <source>How far off the line the cut is</source>
        <translation>Wie weit der Schnitt neben dem Riss liegt</translation>
    </message>
    <message>
        <source>Off the line by</source>
        <translation>Neben dem Riss um</translation>
    </message>
    <message>
        <source>No board chosen</source>
        <translation>Kein Brett ausgewählt</translation>
    </message>
    <message>
        <source>Cutting board %1</source>
        <translation>Zuschnitt von Brett %1</translation>
    </message>
    <message>
        <source>This board has been cut up.</source>
        <translation>Dieses Brett ist aufgeschnitten.</translation>
    </message>
    <message>
        <source>Nothing is planned on this board.</source>
        <translation>Auf diesem Brett ist nichts geplant.</translation>
    </message>
    <message>
        <source>%1 of %2 cuts made.</source>
        <translation>%1 von %2 Schnitten gemacht.</translation>
    </message>
    <message>
        <source>All %1 cuts are made.</source>
        <translation>Alle %1 Schnitte sind gemacht.</translation>
    </message>
    <message>
        <source>to the right</source>
        <translation>nach rechts</translation>
    </message>
    <message>
        <source>away</source>
        <translation>weiter weg</translation>
    </message>
    <message>
        <source>to the left</source>
        <translation>nach links</translation>
    </message>
    <message>
        <source>nearer</source>
        <translation>näher heran</translation>
    </message>
    <message>
        <source>Cut %1 is made. Untick it if that was a slip.</source>
        <translation>Schnitt %1 ist gemacht. Haken wegnehmen, wenn das ein Versehen war.</translation>
    </message>
    <message>
        <source>Cut %1: tick it (Space) once it is made.</source>
        <translation>Schnitt %1: abhaken (Leertaste), sobald er gemacht ist.</translation>
    </message>
</context>
<context>
    <name>rackside::CutSession</name>
    <message>
        <source>Wait for the new plan.</source>
        <translation>Bitte den neuen Plan abwarten.</translation>
    </message>
    <message>
        <source>The board is cut up; nothing large enough to keep is left.</source>
        <translation>Das Brett ist aufgeschnitten; nichts, was aufzuheben lohnt, ist übrig.</translation>
    </message>
    <message>
        <source>The board is cut up; one offcut went back on the rack.</source>
        <translation>Das Brett ist aufgeschnitten; ein Reststück kam zurück ins Lager.</translation>
    </message>
    <message>
        <source>The board is cut up; %1 offcuts went back on the rack.</source>
        <translation>Das Brett ist aufgeschnitten; %1 Reststücke kamen zurück ins Lager.</translation>
    </message>
</context>
<context>
    <name>rackside::Document</name>
    <message>
        <source>The rack that is open could not be saved, and stays open. %1</source>
        <translation>Das offene Lager konnte nicht gesichert werden und bleibt offen. %1</translation>
    </message>
    <message>
        <source> The board is left out.</source>
        <translation> Das Brett bleibt weg.</translation>
    </message>
    <message>
        <source>Another program changed this rack; its changes are shown here now.</source>
        <translation>Ein anderes Programm hat dieses Lager geändert; seine Änderungen stehen jetzt hier.</translation>
    </message>
</context>
<context>
    <name>rackside::DrawTool</name>
    <message>
        <source>Area</source>
        <translation>Fläche</translation>
    </message>
    <message>
        <source>Ellipse</source>
        <translation>Ellipse</translation>
    </message>
    <message>
        <source>Line</source>
        <translation>Linie</translation>
    </message>
    <message>
        <source>Click round the place, or draw round it in one stroke. Double-click or Ctrl+Enter closes it, Backspace takes a point back.</source>
        <translation>Um die Stelle herum klicken oder sie in einem Zug umfahren. Doppelklick oder Strg+Eingabe schließt, Rücktaste nimmt einen Punkt zurück.</translation>
    </message>
    <message>
        <source>Drag from one corner of the spot to the other.</source>
        <translation>Von einer Ecke der Stelle zur anderen ziehen.</translation>
    </message>
    <message>
        <source>Click along the line, or draw it in one stroke. Double-click or Ctrl+Enter ends it.</source>
        <translation>Entlang der Linie klicken oder sie in einem Zug zeichnen. Doppelklick oder Strg+Eingabe beendet sie.</translation>
    </message>
</context>
<context>
    <name>rackside::FaceView</name>
    <message>
        <source>The board&apos;s face</source>
        <translation>Die Seite des Bretts</translation>
    </message>
    <message>
        <source>Face %1 has not been photographed: it is unseen, not clear.</source>
        <translation>Seite %1 wurde nicht fotografiert: sie ist ungesehen, nicht fehlerfrei.</translation>
    </message>
    <message>
        <source>Choose a board in the list on the left.</source>
        <translation>Links in der Liste ein Brett auswählen.</translation>
    </message>
</context>
<context>
    <name>rackside::HelpWindow</name>
    <message>
        <source>Guide and shortcuts</source>
        <translation>Anleitung und Tasten</translation>
    </message>
</context>
<context>
    <name>rackside::LengthEdit</name>
    <message>
        <source>e.g. %1</source>
        <translation>z. B. %1</translation>
    </message>
    <message>
        <source>At least %1 is needed.</source>
        <translation>Mindestens %1 sind nötig.</translation>
    </message>
</context>
<context>
    <name>rackside::LooksPage</name>
    <message>
        <source>Looking at the boards …</source>
        <translation>Die Bretter werden betrachtet …</translation>
    </message>
    <message>
        <source>The part out of each board, the best first</source>
        <translation>Das Teil aus jedem Brett, das beste zuerst</translation>
    </message>
    <message>
        <source>Part</source>
        <translation>Teil</translation>
    </message>
    <message>
        <source>What it should look like</source>
        <translation>Wie es aussehen soll</translation>
    </message>
    <message>
        <source>As a panel glued up from strips</source>
        <translation>Als verleimte Platte aus Streifen</translation>
    </message>
    <message>
        <source>All at one scale and in one light, as the wood might look planed. Marks that the part may not hold are kept clear.</source>
        <translation>Alle in einem Maßstab und einem Licht, wie das Holz gehobelt aussehen könnte. Markierungen, die das Teil nicht haben darf, bleiben frei.</translation>
    </message>
    <message>
        <source>Which board shows best</source>
        <translation>Welches Brett am schönsten wirkt</translation>
    </message>
    <message>
        <source>for the part</source>
        <translation>für das Teil</translation>
    </message>
    <message>
        <source>that should look</source>
        <translation>das so aussehen soll</translation>
    </message>
    <message>
        <source>The parts list says that this part may not be glued up.</source>
        <translation>Laut Stückliste darf dieses Teil nicht verleimt werden.</translation>
    </message>
    <message>
        <source>There is no board in the rack yet.</source>
        <translation>Im Lager ist noch kein Brett.</translation>
    </message>
    <message>
        <source>There are no parts yet: type or paste them under Parts (Alt+3).</source>
        <translation>Es gibt noch keine Teile: unter Teile eintippen oder einfügen (Alt+3).</translation>
    </message>
    <message>
        <source>%1.  Board %2, face %3</source>
        <translation>%1.  Brett %2, Seite %3</translation>
    </message>
    <message>
        <source>See it on the board</source>
        <translation>Auf dem Brett ansehen</translation>
    </message>
    <message>
        <source>See board %1</source>
        <translation>Brett %1 ansehen</translation>
    </message>
    <message>
        <source>Use this place</source>
        <translation>Diesen Platz nehmen</translation>
    </message>
    <message>
        <source>Use the place on board %1</source>
        <translation>Den Platz auf Brett %1 nehmen</translation>
    </message>
    <message>
        <source>One copy is pinned here, and the rest is planned round it.</source>
        <translation>Ein Stück wird hier festgesteckt, der Rest darum herum geplant.</translation>
    </message>
    <message>
        <source>%1 of 100; %2 from the left end, %3 from the near edge.</source>
        <translation>%1 von 100; %2 vom linken Ende, %3 von der nahen Kante.</translation>
    </message>
    <message>
        <source>No board can be ranked for %1.</source>
        <translation>Für %1 kann kein Brett gereiht werden.</translation>
    </message>
    <message>
        <source>%1, %2 × %3: %4</source>
        <translation>%1, %2 × %3: %4</translation>
    </message>
    <message>
        <source>Not ranked: board %1: %2.</source>
        <translation>Nicht gereiht: Brett %1: %2.</translation>
    </message>
    <message>
        <source>%1 as a panel: %2 strips of %3 × %4</source>
        <translation>%1 als Platte: %2 Streifen von %3 × %4</translation>
    </message>
    <message>
        <source>Best orders:</source>
        <translation>Beste Reihenfolgen:</translation>
    </message>
    <message>
        <source>Order %1 of the best</source>
        <translation>Reihenfolge %1 der besten</translation>
    </message>
    <message>
        <source>Strip %1: board %2, face %3, %4 from the left end, %5 from the near edge.%6</source>
        <translation>Streifen %1: Brett %2, Seite %3, %4 vom linken Ende, %5 von der nahen Kante.%6</translation>
    </message>
    <message>
        <source> Its other face is not known or may not show.</source>
        <translation> Seine andere Seite ist nicht bekannt oder darf nicht zu sehen sein.</translation>
    </message>
    <message>
        <source>Drag a strip to another place. Up and Down choose, with Ctrl they move it; T turns it end for end (↔), O turns it over (↕).</source>
        <translation>Einen Streifen an eine andere Stelle ziehen. Auf und Ab wählen aus, mit Strg verschieben sie; T dreht ihn Ende für Ende (↔), O wendet ihn (↕).</translation>
    </message>
    <message>
        <source>No glue line stands out.</source>
        <translation>Keine Leimfuge fällt auf.</translation>
    </message>
    <message>
        <source>One glue line stands out.</source>
        <translation>Eine Leimfuge fällt auf.</translation>
    </message>
    <message>
        <source>%1 of %2 glue lines stand out.</source>
        <translation>%1 von %2 Leimfugen fallen auf.</translation>
    </message>
</context>
<context>
    <name>rackside::MainWindow</name>
    <message>
        <source>Rackside</source>
        <translation>Rackside</translation>
    </message>
    <message>
        <source>Photographs</source>
        <translation>Fotos</translation>
    </message>
    <message>
        <source>Wood</source>
        <translation>Holz</translation>
    </message>
    <message>
        <source>Parts</source>
        <translation>Teile</translation>
    </message>
    <message>
        <source>Looks</source>
        <translation>Ansichten</translation>
    </message>
    <message>
        <source>Plan</source>
        <translation>Plan</translation>
    </message>
    <message>
        <source>Paper</source>
        <translation>Blätter</translation>
    </message>
    <message>
        <source>Cut</source>
        <translation>Zuschnitt</translation>
    </message>
    <message>
        <source>Shop</source>
        <translation>Werkstatt</translation>
    </message>
    <message>
        <source>Not saved: %1</source>
        <translation>Nicht gesichert: %1</translation>
    </message>
    <message>
        <source>%1 boards measured.</source>
        <translation>%1 Bretter gemessen.</translation>
    </message>
    <message>
        <source>%1 boards measured, %2 to retake.</source>
        <translation>%1 Bretter gemessen, %2 neu aufzunehmen.</translation>
    </message>
    <message>
        <source>The folder %1 could not be made: choose one that you may write to.</source>
        <translation>Der Ordner %1 konnte nicht angelegt werden: bitte einen wählen, in den Sie schreiben dürfen.</translation>
    </message>
    <message>
        <source>%1 – Rackside</source>
        <translation>%1 – Rackside</translation>
    </message>
    <message>
        <source>&amp;Undo: %1</source>
        <translation>&amp;Zurücknehmen: %1</translation>
    </message>
    <message>
        <source>&amp;Undo</source>
        <translation>&amp;Zurücknehmen</translation>
    </message>
    <message>
        <source>&amp;Redo: %1</source>
        <translation>&amp;Wiederholen: %1</translation>
    </message>
    <message>
        <source>&amp;Redo</source>
        <translation>&amp;Wiederholen</translation>
    </message>
    <message>
        <source>Not saved</source>
        <translation>Nicht gesichert</translation>
    </message>
    <message>
        <source>All saved</source>
        <translation>Alles gesichert</translation>
    </message>
    <message>
        <source>Saving …</source>
        <translation>Wird gesichert …</translation>
    </message>
    <message>
        <source>along %1   across %2</source>
        <translation>längs %1   quer %2</translation>
    </message>
    <message>
        <source>Start a rack</source>
        <translation>Ein Lager anlegen</translation>
    </message>
    <message>
        <source>Name of the rack:</source>
        <translation>Name des Lagers:</translation>
    </message>
    <message>
        <source>Start</source>
        <translation>Anlegen</translation>
    </message>
    <message>
        <source>Choose the folder of a rack</source>
        <translation>Den Ordner eines Lagers wählen</translation>
    </message>
    <message>
        <source>Board %1 is removed. Ctrl+Z brings it back.</source>
        <translation>Brett %1 ist entfernt. Strg+Z holt es zurück.</translation>
    </message>
    <message>
        <source>The sample rack was not found beside the program. Run samples/demo.sh once; it makes it.</source>
        <translation>Das Musterlager wurde neben dem Programm nicht gefunden. Einmal samples/demo.sh ausführen; es legt es an.</translation>
    </message>
    <message>
        <source>%1
Close all the same, and lose what was not saved?</source>
        <translation>%1
Trotzdem schließen und verlieren, was nicht gesichert ist?</translation>
    </message>
    <message>
        <source>A new rack is begun in %1.</source>
        <translation>Ein neues Lager ist angelegt in %1.</translation>
    </message>
    <message>
        <source>&amp;Rack</source>
        <translation>&amp;Lager</translation>
    </message>
    <message>
        <source>&amp;Start a rack …</source>
        <translation>Lager &amp;anlegen …</translation>
    </message>
    <message>
        <source>&amp;Open a rack …</source>
        <translation>Lager ö&amp;ffnen …</translation>
    </message>
    <message>
        <source>Recent rac&amp;ks</source>
        <translation>&amp;Zuletzt geöffnet</translation>
    </message>
    <message>
        <source>Open the &amp;sample rack</source>
        <translation>&amp;Musterlager öffnen</translation>
    </message>
    <message>
        <source>Print &amp;cards and tags …</source>
        <translation>&amp;Karten und Marken drucken …</translation>
    </message>
    <message>
        <source>Enter boards by &amp;tape …</source>
        <translation>Bretter mit dem Ma&amp;ßband aufnehmen …</translation>
    </message>
    <message>
        <source>&amp;Remove the selected board</source>
        <translation>Ausgewähltes Brett &amp;entfernen</translation>
    </message>
    <message>
        <source>Save &amp;now</source>
        <translation>Jetzt &amp;sichern</translation>
    </message>
    <message>
        <source>Saved.</source>
        <translation>Gesichert.</translation>
    </message>
    <message>
        <source>&amp;Quit</source>
        <translation>&amp;Beenden</translation>
    </message>
    <message>
        <source>&amp;Edit</source>
        <translation>&amp;Bearbeiten</translation>
    </message>
    <message>
        <source>&amp;View</source>
        <translation>&amp;Ansicht</translation>
    </message>
    <message>
        <source>&amp;Next board</source>
        <translation>&amp;Nächstes Brett</translation>
    </message>
    <message>
        <source>&amp;Previous board</source>
        <translation>&amp;Voriges Brett</translation>
    </message>
    <message>
        <source>&amp;Find a board</source>
        <translation>Brett &amp;suchen</translation>
    </message>
    <message>
        <source>Go to the &amp;list of boards</source>
        <translation>Zur &amp;Liste der Bretter</translation>
    </message>
    <message>
        <source>Go to the &amp;board</source>
        <translation>Zum &amp;Brett</translation>
    </message>
    <message>
        <source>&amp;Millimetres or inches</source>
        <translation>&amp;Millimeter oder Zoll</translation>
    </message>
    <message>
        <source>&amp;Light or dark</source>
        <translation>&amp;Hell oder dunkel</translation>
    </message>
    <message>
        <source>As the &amp;system</source>
        <translation>Wie das &amp;System</translation>
    </message>
    <message>
        <source>&amp;Light</source>
        <translation>&amp;Hell</translation>
    </message>
    <message>
        <source>&amp;Dark</source>
        <translation>&amp;Dunkel</translation>
    </message>
    <message>
        <source>Lan&amp;guage</source>
        <translation>&amp;Sprache</translation>
    </message>
    <message>
        <source>S&amp;witch theme</source>
        <translation>&amp;Umschalten</translation>
    </message>
    <message>
        <source>The language changes when Rackside is started again.</source>
        <translation>Die Sprache wechselt, wenn Rackside neu gestartet wird.</translation>
    </message>
    <message>
        <source>As the s&amp;ystem</source>
        <translation>Wie das S&amp;ystem</translation>
    </message>
    <message>
        <source>&amp;Help</source>
        <translation>&amp;Hilfe</translation>
    </message>
    <message>
        <source>&amp;Find an action …</source>
        <translation>&amp;Aktion suchen …</translation>
    </message>
    <message>
        <source>&amp;Guide and shortcuts</source>
        <translation>An&amp;leitung und Tasten</translation>
    </message>
    <message>
        <source>Phone …</source>
        <translation>Telefon …</translation>
    </message>
    <message>
        <source>Photograph, mark and tick with the phone at the rack</source>
        <translation>Mit dem Telefon am Regal fotografieren, markieren und abhaken</translation>
    </message>
    <message>
        <source>Phone: on …</source>
        <translation>Telefon: an …</translation>
    </message>
    <message>
        <source>&amp;Phone at the rack …</source>
        <translation>&amp;Telefon am Regal …</translation>
    </message>
</context>
<context>
    <name>rackside::MarkPanel</name>
    <message>
        <source>You have looked at this face, and all that a part may not hold is marked. Until then a face without marks is not taken for clear.</source>
        <translation>Sie haben diese Seite angesehen, und alles, was ein Teil nicht haben darf, ist markiert. Bis dahin gilt eine Seite ohne Markierungen nicht als fehlerfrei.</translation>
    </message>
    <message>
        <source>Marks of this board</source>
        <translation>Markierungen dieses Bretts</translation>
    </message>
    <message>
        <source>Goes through to the other face</source>
        <translation>Geht durch bis zur anderen Seite</translation>
    </message>
    <message>
        <source>Live insects: sets the board aside</source>
        <translation>Lebende Insekten: das Brett wird beiseitegestellt</translation>
    </message>
    <message>
        <source>from A</source>
        <translation>von A</translation>
    </message>
    <message>
        <source>from B</source>
        <translation>von B</translation>
    </message>
    <message>
        <source>Li&amp;ne width</source>
        <translation>&amp;Linienbreite</translation>
    </message>
    <message>
        <source>So&amp;und or loose</source>
        <translation>&amp;Fest oder lose</translation>
    </message>
    <message>
        <source>Accept this suggestion (&amp;Y)</source>
        <translation>Diesen Vorschlag annehmen (&amp;Y)</translation>
    </message>
    <message>
        <source>Remove mark</source>
        <translation>Markierung entfernen</translation>
    </message>
    <message>
        <source>K&amp;ind</source>
        <translation>A&amp;rt</translation>
    </message>
    <message>
        <source>&amp;Depth</source>
        <translation>&amp;Tiefe</translation>
    </message>
    <message>
        <source>N&amp;ote</source>
        <translation>&amp;Notiz</translation>
    </message>
    <message>
        <source>, both faces</source>
        <translation>, beide Seiten</translation>
    </message>
    <message>
        <source>, face A</source>
        <translation>, Seite A</translation>
    </message>
    <message>
        <source>, face B</source>
        <translation>, Seite B</translation>
    </message>
    <message>
        <source>, through</source>
        <translation>, durchgehend</translation>
    </message>
    <message>
        <source>, suggested (%1 % sure)</source>
        <translation>, vorgeschlagen (%1 % sicher)</translation>
    </message>
    <message>
        <source>Face %1 looked over</source>
        <translation>Seite %1 durchgesehen</translation>
    </message>
    <message>
        <source>Looked over: clear</source>
        <translation>Durchgesehen: fehlerfrei</translation>
    </message>
    <message>
        <source>No marks yet</source>
        <translation>Noch keine Markierungen</translation>
    </message>
    <message>
        <source>1 mark</source>
        <translation>1 Markierung</translation>
    </message>
    <message>
        <source>%1 marks</source>
        <translation>%1 Markierungen</translation>
    </message>
    <message>
        <source>Refuse this suggestion (N)</source>
        <translation>Diesen Vorschlag ablehnen (N)</translation>
    </message>
</context>
<context>
    <name>rackside::MeasureTool</name>
    <message>
        <source>Measure</source>
        <translation>Messen</translation>
    </message>
    <message>
        <source>Click two places, or drag between them; near the outline the end catches on it (Alt: it does not). Shift keeps the line along or across the board.</source>
        <translation>Zwei Stellen anklicken oder von einer zur anderen ziehen; nahe dem Umriss rastet das Ende ein (Alt: nicht). Umschalt hält die Linie längs oder quer zum Brett.</translation>
    </message>
</context>
<context>
    <name>rackside::OtherPapers</name>
    <message>
        <source>&amp;Other sheets and files</source>
        <translation>&amp;Weitere Blätter und Dateien</translation>
    </message>
    <message>
        <source>End labels on bought sheets</source>
        <translation>Endetiketten auf gekauften Bögen</translation>
    </message>
    <message>
        <source>Full-size templates of shaped parts …</source>
        <translation>Schablonen geformter Teile in wahrer Größe …</translation>
    </message>
    <message>
        <source>Save the templates</source>
        <translation>Schablonen sichern</translation>
    </message>
    <message>
        <source>One drawing per board, DXF …</source>
        <translation>Eine Zeichnung je Brett, DXF …</translation>
    </message>
    <message>
        <source>One drawing per board, SVG …</source>
        <translation>Eine Zeichnung je Brett, SVG …</translation>
    </message>
    <message>
        <source>Folder for the drawings</source>
        <translation>Ordner für die Zeichnungen</translation>
    </message>
    <message>
        <source>Tables for a spreadsheet, CSV …</source>
        <translation>Tabellen für die Tabellenkalkulation, CSV …</translation>
    </message>
    <message>
        <source>Folder for the tables</source>
        <translation>Ordner für die Tabellen</translation>
    </message>
    <message>
        <source>Face pictures with their scale, PNG …</source>
        <translation>Bilder der Seiten mit ihrem Maßstab, PNG …</translation>
    </message>
    <message>
        <source>Folder for the face pictures</source>
        <translation>Ordner für die Bilder der Seiten</translation>
    </message>
    <message>
        <source>A4</source>
        <translation>A4</translation>
    </message>
    <message>
        <source>US Letter</source>
        <translation>US Letter</translation>
    </message>
    <message>
        <source>%1, %2 labels …</source>
        <translation>%1, %2 Etiketten …</translation>
    </message>
    <message>
        <source>End labels</source>
        <translation>Endetiketten</translation>
    </message>
    <message>
        <source>Labels already gone from the first sheet:</source>
        <translation>Etiketten, die auf dem ersten Bogen schon fehlen:</translation>
    </message>
    <message>
        <source>Save the end labels</source>
        <translation>Endetiketten sichern</translation>
    </message>
    <message>
        <source>PDF (*.pdf)</source>
        <translation>PDF (*.pdf)</translation>
    </message>
    <message>
        <source>Saved: %1.</source>
        <translation>Gesichert: %1.</translation>
    </message>
    <message>
        <source>%1 files saved to %2.</source>
        <translation>%1 Dateien in %2 gesichert.</translation>
    </message>
</context>
<context>
    <name>rackside::OutlineTool</name>
    <message>
        <source>Click on the outline where the wrong stretch begins, then along the true edge, then on the outline where it ends. The line follows the edge that is seen. Or draw it in one stroke.</source>
        <translation>Auf den Umriss klicken, wo das falsche Stück beginnt, dann entlang der wahren Kante, dann auf den Umriss, wo es endet. Die Linie folgt der sichtbaren Kante. Oder in einem Zug zeichnen.</translation>
    </message>
    <message>
        <source>Click along the edge; click on the outline, or double-click, to end. Shift draws straight, Backspace takes a point back, Esc drops it.</source>
        <translation>Entlang der Kante klicken; ein Klick auf den Umriss oder ein Doppelklick beendet. Umschalt zeichnet gerade, Rücktaste nimmt einen Punkt zurück, Esc verwirft.</translation>
    </message>
    <message>
        <source>Outline</source>
        <translation>Umriss</translation>
    </message>
</context>
<context>
    <name>rackside::PanelView</name>
    <message>
        <source>The panel&apos;s strips</source>
        <translation>Die Streifen der Platte</translation>
    </message>
    <message>
        <source>Drag a strip to another place. Keys: up and down choose, with Ctrl they move it; T turns it end for end, O turns it over.</source>
        <translation>Einen Streifen an eine andere Stelle ziehen. Tasten: Auf und Ab wählen aus, mit Strg verschieben sie; T dreht ihn Ende für Ende, O wendet ihn.</translation>
    </message>
</context>
<context>
    <name>rackside::PaperPage</name>
    <message>
        <source>A4</source>
        <translation>A4</translation>
    </message>
    <message>
        <source>US Letter</source>
        <translation>US Letter</translation>
    </message>
    <message>
        <source>Paper</source>
        <translation>Blätter</translation>
    </message>
    <message>
        <source>Boards to pull, in order</source>
        <translation>Bretter zum Herausziehen, der Reihe nach</translation>
    </message>
    <message>
        <source>One page per board</source>
        <translation>Eine Seite je Brett</translation>
    </message>
    <message>
        <source>Parts</source>
        <translation>Teile</translation>
    </message>
    <message>
        <source>Cut list</source>
        <translation>Zuschnittliste</translation>
    </message>
    <message>
        <source>Milling</source>
        <translation>Hobeln</translation>
    </message>
    <message>
        <source>Filling</source>
        <translation>Füllen</translation>
    </message>
    <message>
        <source>Movement through the seasons</source>
        <translation>Quellen und Schwinden übers Jahr</translation>
    </message>
    <message>
        <source>Tally</source>
        <translation>Aufmaß</translation>
    </message>
    <message>
        <source>Labels</source>
        <translation>Etiketten</translation>
    </message>
    <message>
        <source>Only the selected board</source>
        <translation>Nur das ausgewählte Brett</translation>
    </message>
    <message>
        <source>Save as &amp;PDF …</source>
        <translation>Als &amp;PDF sichern …</translation>
    </message>
    <message>
        <source>P&amp;rint …</source>
        <translation>&amp;Drucken …</translation>
    </message>
    <message>
        <source>Pages</source>
        <translation>Seiten</translation>
    </message>
    <message>
        <source>Print at 100 %. The board pages say every cut from the fresh end, in the order to work in; the labels go on the ends of the pieces.</source>
        <translation>Mit 100 % drucken. Die Brettseiten nennen jeden Schnitt vom frischen Ende aus, in der Reihenfolge der Arbeit; die Etiketten kommen auf die Enden der Stücke.</translation>
    </message>
    <message>
        <source>Sheets for the bench</source>
        <translation>Blätter für die Bank</translation>
    </message>
    <message>
        <source>There is no board yet, so there is nothing to print but cards and tags.</source>
        <translation>Es gibt noch kein Brett, also ist außer Karten und Marken nichts zu drucken.</translation>
    </message>
    <message>
        <source>1 page</source>
        <translation>1 Seite</translation>
    </message>
    <message>
        <source>%1 pages</source>
        <translation>%1 Seiten</translation>
    </message>
    <message>
        <source>Nothing is chosen to print.</source>
        <translation>Es ist nichts zum Drucken gewählt.</translation>
    </message>
    <message>
        <source>%1 pages sent to the printer. Check the scale with a rule.</source>
        <translation>%1 Seiten an den Drucker geschickt. Den Maßstab mit einem Stahlmaß nachmessen.</translation>
    </message>
    <message>
        <source>Save the sheets as PDF</source>
        <translation>Die Blätter als PDF sichern</translation>
    </message>
    <message>
        <source>PDF (*.pdf)</source>
        <translation>PDF (*.pdf)</translation>
    </message>
    <message>
        <source>%1 pages saved to %2.</source>
        <translation>%1 Seiten in %2 gesichert.</translation>
    </message>
</context>
<context>
    <name>rackside::PartForm</name>
    <message>
        <source>Look: %1</source>
        <translation>Ansicht: %1</translation>
    </message>
    <message>
        <source>Look</source>
        <translation>Ansicht</translation>
    </message>
    <message>
        <source>Select a part to see what else it may ask for.</source>
        <translation>Ein Teil auswählen, um zu sehen, was es noch verlangen kann.</translation>
    </message>
</context>
<context>
    <name>rackside::PartPicture</name>
    <message>
        <source>The selected part</source>
        <translation>Das ausgewählte Teil</translation>
    </message>
</context>
<context>
    <name>rackside::PartsPage</name>
    <message>
        <source>Parts wanted</source>
        <translation>Gewünschte Teile</translation>
    </message>
    <message>
        <source>Finished sizes; the allowances for milling are added when planning. Type, or paste from a spreadsheet. Lengths are read as you write them: 23 5/8, 7/8&quot;, 2&apos; 3 1/2&quot;, 600 mm, 60 cm.</source>
        <translation>Fertigmaße; die Zugaben zum Hobeln kommen beim Planen dazu. Eintippen oder aus einer Tabelle einfügen. Längen werden gelesen, wie Sie sie schreiben: 600 mm, 60 cm, 23 5/8&quot;, 7/8&quot;, 2&apos; 3 1/2&quot;.</translation>
    </message>
    <message>
        <source>Paste from a spreadsheet</source>
        <translation>Aus einer Tabelle einfügen</translation>
    </message>
    <message>
        <source>Read CSV …</source>
        <translation>CSV lesen …</translation>
    </message>
    <message>
        <source>Save as CSV …</source>
        <translation>Als CSV sichern …</translation>
    </message>
    <message>
        <source>Remove rows</source>
        <translation>Zeilen entfernen</translation>
    </message>
    <message>
        <source>The rows of the chosen cells (Ctrl+Delete)</source>
        <translation>Die Zeilen der ausgewählten Zellen (Strg+Entf)</translation>
    </message>
    <message>
        <source>From the chosen cell on (Ctrl+V). A first row of column names sorts the columns by itself.</source>
        <translation>Ab der ausgewählten Zelle (Strg+V). Eine erste Zeile mit Spaltennamen ordnet die Spalten von selbst.</translation>
    </message>
    <message>
        <source>Nothing to paste: copy cells in the spreadsheet first.</source>
        <translation>Nichts einzufügen: zuerst in der Tabelle Zellen kopieren.</translation>
    </message>
    <message>
        <source>Paste rows</source>
        <translation>Zeilen einfügen</translation>
    </message>
    <message>
        <source>One of the rows there is filled in already.</source>
        <translation>Eine der Zeilen dort ist schon ausgefüllt.</translation>
    </message>
    <message>
        <source>%1 of the rows there are filled in already.</source>
        <translation>%1 der Zeilen dort sind schon ausgefüllt.</translation>
    </message>
    <message>
        <source>&amp;Insert as new rows</source>
        <translation>Als neue &amp;Zeilen einfügen</translation>
    </message>
    <message>
        <source>&amp;Replace what is there</source>
        <translation>&amp;Ersetzen, was dort steht</translation>
    </message>
    <message>
        <source>Columns not known here, and left out: %1.</source>
        <translation>Hier unbekannte Spalten, weggelassen: %1.</translation>
    </message>
    <message>
        <source>%1 rows have a mistake, marked in their cells.</source>
        <translation>%1 Zeilen haben einen Fehler, in ihren Zellen markiert.</translation>
    </message>
    <message>
        <source>Read a parts list</source>
        <translation>Eine Stückliste lesen</translation>
    </message>
    <message>
        <source>CSV (*.csv *.txt *.tsv)</source>
        <translation>CSV (*.csv *.txt *.tsv)</translation>
    </message>
    <message>
        <source>%1 rows read.</source>
        <translation>%1 Zeilen gelesen.</translation>
    </message>
    <message>
        <source>Save the parts list</source>
        <translation>Die Stückliste sichern</translation>
    </message>
    <message>
        <source>CSV (*.csv)</source>
        <translation>CSV (*.csv)</translation>
    </message>
    <message>
        <source>Saved to %1.</source>
        <translation>In %1 gesichert.</translation>
    </message>
    <message>
        <source>1 row is unfinished: kept, but not planned until it is put right.</source>
        <translation>1 Zeile ist unfertig: aufgehoben, aber nicht geplant, bis sie berichtigt ist.</translation>
    </message>
    <message>
        <source>%1 rows are unfinished: kept, but not planned until they are put right.</source>
        <translation>%1 Zeilen sind unfertig: aufgehoben, aber nicht geplant, bis sie berichtigt sind.</translation>
    </message>
</context>
<context>
    <name>rackside::PhoneWindow</name>
    <message>
        <source>Phone at the rack</source>
        <translation>Telefon am Regal</translation>
    </message>
    <message>
        <source>Photograph boards with the phone, see them measured where they stand, mark them and tick cuts. While it is on, phones on the same network that bring the code below can do that on this rack. Nothing is encrypted: use it on a network of your own with a password, not where strangers are.</source>
        <translation>Bretter mit dem Telefon fotografieren, sie gleich am Regal vermessen sehen, markieren und Schnitte abhaken. Solange es an ist, können das auf diesem Regal alle Telefone im selben Netz, die den Code unten mitbringen. Nichts ist verschlüsselt: nur in einem eigenen Netz mit Passwort benutzen, nicht wo Fremde sind.</translation>
    </message>
    <message>
        <source>The code that lets one phone in</source>
        <translation>Der Code, der ein Telefon einlässt</translation>
    </message>
    <message>
        <source>&amp;Network</source>
        <translation>&amp;Netz</translation>
    </message>
    <message>
        <source>First open a rack: what the phone sends needs a place.</source>
        <translation>Zuerst ein Regal öffnen: Was das Telefon sendet, braucht einen Platz.</translation>
    </message>
    <message>
        <source>This computer is on no network: connect it to the one the phone is on, then open this again.</source>
        <translation>Dieser Rechner ist in keinem Netz: mit dem des Telefons verbinden, dann dies wieder öffnen.</translation>
    </message>
    <message>
        <source>&amp;Stop</source>
        <translation>&amp;Anhalten</translation>
    </message>
    <message>
        <source>&amp;Start</source>
        <translation>&amp;Starten</translation>
    </message>
    <message>
        <source>Scan this with the phone, or type it there:</source>
        <translation>Mit dem Telefon abfotografieren oder dort eintippen:</translation>
    </message>
    <message>
        <source>One phone is connected. One more phone needs this code:</source>
        <translation>Ein Telefon ist verbunden. Ein weiteres braucht diesen Code:</translation>
    </message>
    <message>
        <source>%1 phones are connected. One more phone needs this code:</source>
        <translation>%1 Telefone sind verbunden. Ein weiteres braucht diesen Code:</translation>
    </message>
</context>
<context>
    <name>rackside::PhotoGroupRow</name>
    <message>
        <source>Which face?</source>
        <translation>Welche Seite?</translation>
    </message>
    <message>
        <source>Face that the photographs show</source>
        <translation>Seite, die die Fotos zeigen</translation>
    </message>
    <message>
        <source>Remove from list</source>
        <translation>Aus der Liste entfernen</translation>
    </message>
    <message>
        <source>Look at it</source>
        <translation>Ansehen</translation>
    </message>
    <message>
        <source>Species</source>
        <translation>Holzart</translation>
    </message>
    <message>
        <source>Thickness</source>
        <translation>Dicke</translation>
    </message>
    <message>
        <source>Location</source>
        <translation>Lagerplatz</translation>
    </message>
    <message>
        <source>Price per board foot</source>
        <translation>Preis je Board Foot</translation>
    </message>
    <message>
        <source>Tag %1: </source>
        <translation>Marke %1: </translation>
    </message>
    <message>
        <source>No tag: </source>
        <translation>Keine Marke: </translation>
    </message>
    <message>
        <source>Face A</source>
        <translation>Seite A</translation>
    </message>
    <message>
        <source>Face B</source>
        <translation>Seite B</translation>
    </message>
    <message>
        <source>The same face as above: measure together</source>
        <translation>Dieselbe Seite wie oben: zusammen messen</translation>
    </message>
</context>
<context>
    <name>rackside::PhotoSession</name>
    <message>
        <source>Taken for the other face: the cards lie otherwise than in the photographs of this tag before it.</source>
        <translation>Für die andere Seite gehalten: die Karten liegen anders als auf den Fotos dieser Marke zuvor.</translation>
    </message>
    <message>
        <source>Which face does it show? Its cards do not tell.</source>
        <translation>Welche Seite ist zu sehen? Die Karten verraten es nicht.</translation>
    </message>
    <message>
        <source>Tags %1 are all in view: photograph one board at a time, or cover the other tags.</source>
        <translation>Die Marken %1 sind alle im Bild: ein Brett nach dem anderen aufnehmen oder die anderen Marken abdecken.</translation>
    </message>
    <message>
        <source>No reference card was found: lay printed cards flat on the board, whole in the picture and in even light.</source>
        <translation>Keine Messkarte gefunden: gedruckte Karten flach auf das Brett legen, ganz im Bild und in gleichmäßigem Licht.</translation>
    </message>
    <message>
        <source>Face B belongs to a board that is on the rack: scan its face A first.</source>
        <translation>Seite B gehört zu einem Brett, das im Lager ist: zuerst seine Seite A messen.</translation>
    </message>
    <message>
        <source>Stopped before it was measured.</source>
        <translation>Angehalten, bevor es gemessen war.</translation>
    </message>
    <message>
        <source>new %1</source>
        <translation>neu %1</translation>
    </message>
</context>
<context>
    <name>rackside::PhotosPage</name>
    <message>
        <source>For all boards of this batch</source>
        <translation>Für alle Bretter dieser Reihe</translation>
    </message>
    <message>
        <source>e.g. cherry</source>
        <translation>z. B. Kirsche</translation>
    </message>
    <message>
        <source>e.g. left bay</source>
        <translation>z. B. linkes Fach</translation>
    </message>
    <message>
        <source>on the board</source>
        <translation>auf dem Brett</translation>
    </message>
    <message>
        <source>on the bench beside it</source>
        <translation>auf der Bank daneben</translation>
    </message>
    <message>
        <source>Spe&amp;cies</source>
        <translation>&amp;Holzart</translation>
    </message>
    <message>
        <source>&amp;Thickness</source>
        <translation>&amp;Dicke</translation>
    </message>
    <message>
        <source>&amp;Location</source>
        <translation>&amp;Lagerplatz</translation>
    </message>
    <message>
        <source>&amp;Price per board foot</source>
        <translation>&amp;Preis je Board Foot</translation>
    </message>
    <message>
        <source>printed cards</source>
        <translation>gedruckte Karten</translation>
    </message>
    <message>
        <source>a bank card</source>
        <translation>eine Bankkarte</translation>
    </message>
    <message>
        <source>a sheet of A4</source>
        <translation>ein Blatt A4</translation>
    </message>
    <message>
        <source>a sheet of US Letter</source>
        <translation>ein Blatt US Letter</translation>
    </message>
    <message>
        <source>No printer? A bank card or a sheet of paper will do, with a larger ±.</source>
        <translation>Kein Drucker? Eine Bankkarte oder ein Blatt Papier tut es auch, mit größerem ±.</translation>
    </message>
    <message>
        <source>Sca&amp;le from</source>
        <translation>&amp;Maßstab von</translation>
    </message>
    <message>
        <source>Cards &amp;lie</source>
        <translation>Karten &amp;liegen</translation>
    </message>
    <message>
        <source>Thickness of the card&amp;s</source>
        <translation>Dicke der &amp;Karten</translation>
    </message>
    <message>
        <source>Measure the bar printed on a card with a steel rule and enter what it measures: the ± gets smaller.</source>
        <translation>Die gedruckte Prüfstrecke einer Karte mit einem Stahlmaß messen und das Maß eingeben: das ± wird kleiner.</translation>
    </message>
    <message>
        <source>Measured &amp;bar</source>
        <translation>Gemessene &amp;Prüfstrecke</translation>
    </message>
    <message>
        <source>How far the boards&apos; ends stand up, where they do not lie flat.</source>
        <translation>Wie weit die Enden der Bretter hochstehen, wo sie nicht flach liegen.</translation>
    </message>
    <message>
        <source>Bo&amp;w</source>
        <translation>&amp;Verzug längs</translation>
    </message>
    <message>
        <source>Of a card with the strip it is glued to; leave empty for bare paper.</source>
        <translation>Einer Karte mit der Leiste, auf die sie geklebt ist; bei bloßem Papier leer lassen.</translation>
    </message>
    <message>
        <source>Photographs</source>
        <translation>Fotos</translation>
    </message>
    <message>
        <source>Drop photographs here, of as many boards as you like. Each is looked at for its tag and its cards, so that the pictures of one board come together; then they are measured in the background, one board after another. What to retake, and why, is said beside it.</source>
        <translation>Fotos hier ablegen, von beliebig vielen Brettern. In jedem werden Marke und Karten gesucht, damit die Bilder eines Bretts zusammenkommen; dann werden sie im Hintergrund gemessen, ein Brett nach dem anderen. Was neu aufzunehmen ist, und warum, steht daneben.</translation>
    </message>
    <message>
        <source>Choose &amp;photographs …</source>
        <translation>&amp;Fotos wählen …</translation>
    </message>
    <message>
        <source>Choose photographs</source>
        <translation>Fotos wählen</translation>
    </message>
    <message>
        <source>Photographs (%1)</source>
        <translation>Fotos (%1)</translation>
    </message>
    <message>
        <source>&amp;Stop</source>
        <translation>&amp;Anhalten</translation>
    </message>
    <message>
        <source>&amp;Measure 1 board</source>
        <translation>1 Brett &amp;messen</translation>
    </message>
    <message>
        <source>&amp;Measure %1 boards</source>
        <translation>%1 Bretter &amp;messen</translation>
    </message>
    <message>
        <source>%1 measured</source>
        <translation>%1 gemessen</translation>
    </message>
    <message>
        <source>%1 to say the face of</source>
        <translation>bei %1 fehlt die Seite</translation>
    </message>
    <message>
        <source>%1 to retake</source>
        <translation>%1 neu aufzunehmen</translation>
    </message>
    <message>
        <source>1 file is not a photograph</source>
        <translation>1 Datei ist kein Foto</translation>
    </message>
    <message>
        <source>%1 files are not photographs</source>
        <translation>%1 Dateien sind keine Fotos</translation>
    </message>
    <message>
        <source>Looking for tags and cards …</source>
        <translation>Marken und Karten werden gesucht …</translation>
    </message>
</context>
<context>
    <name>rackside::PictureSource</name>
    <message>
        <source>The picture %1 cannot be read. Scan its photographs again.</source>
        <translation>Das Bild %1 ist nicht lesbar. Bitte seine Fotos neu messen.</translation>
    </message>
</context>
<context>
    <name>rackside::PlaceTool</name>
    <message>
        <source>Planning … the best so far is shown as it improves.</source>
        <translation>Es wird geplant … das bisher Beste ist zu sehen und wird besser.</translation>
    </message>
    <message>
        <source>Drag the piece, or move it with the arrow keys (Shift: in large steps) and press Enter. N pins it or lets it go, Esc puts it back.</source>
        <translation>Das Stück ziehen oder mit den Pfeiltasten verschieben (Umschalt: in großen Schritten) und Eingabe drücken. N steckt es fest oder löst es, Esc legt es zurück.</translation>
    </message>
    <message>
        <source>Click a piece to select it, or press Tab to walk through them.</source>
        <translation>Ein Stück anklicken, um es auszuwählen, oder mit Tab durchgehen.</translation>
    </message>
    <message>
        <source>Planning the rest round it …</source>
        <translation>Der Rest wird darum herum geplant …</translation>
    </message>
    <message>
        <source>Fits here: let go to pin it</source>
        <translation>Hier passt es: loslassen, um es festzustecken</translation>
    </message>
    <message>
        <source>Place</source>
        <translation>Legen</translation>
    </message>
</context>
<context>
    <name>rackside::PlanPanel</name>
    <message>
        <source>What the plan aims at</source>
        <translation>Worauf der Plan zielt</translation>
    </message>
    <message>
        <source>&amp;Compare the aims</source>
        <translation>Ziele &amp;vergleichen</translation>
    </message>
    <message>
        <source>A plan by each aim, side by side in figures; you choose.</source>
        <translation>Nach jedem Ziel ein Plan, in Zahlen nebeneinander; Sie wählen.</translation>
    </message>
    <message>
        <source>One plan by each aim</source>
        <translation>Nach jedem Ziel ein Plan</translation>
    </message>
    <message>
        <source> s</source>
        <translation> s</translation>
    </message>
    <message>
        <source>How long to search. A longer search may find a better plan; the best so far can be kept at any time.</source>
        <translation>Wie lange gesucht wird. Eine längere Suche findet vielleicht einen besseren Plan; das bisher Beste kann jederzeit behalten werden.</translation>
    </message>
    <message>
        <source>Seconds to search</source>
        <translation>Sekunden der Suche</translation>
    </message>
    <message>
        <source>Pinned here (N)</source>
        <translation>Hier festgesteckt (N)</translation>
    </message>
    <message>
        <source>Boards of the plan</source>
        <translation>Bretter des Plans</translation>
    </message>
    <message>
        <source>Parts not placed</source>
        <translation>Nicht untergebrachte Teile</translation>
    </message>
    <message>
        <source>What this plan weighs</source>
        <translation>Was dieser Plan wiegt</translation>
    </message>
    <message>
        <source>Spare stock for the parts that show</source>
        <translation>Ersatzholz für die Sichtteile</translation>
    </message>
    <message>
        <source>Cut these parts first, while the spare wood is there.</source>
        <translation>Diese Teile zuerst schneiden, solange das Ersatzholz da ist.</translation>
    </message>
    <message>
        <source>Panels, from the near edge</source>
        <translation>Platten, von der nahen Kante aus</translation>
    </message>
    <message>
        <source>Warnings</source>
        <translation>Warnungen</translation>
    </message>
    <message>
        <source>&amp;Aim</source>
        <translation>&amp;Ziel</translation>
    </message>
    <message>
        <source>&amp;Stop, keep the best so far</source>
        <translation>&amp;Anhalten, das bisher Beste behalten</translation>
    </message>
    <message>
        <source>&amp;Plan again</source>
        <translation>Neu &amp;planen</translation>
    </message>
    <message>
        <source>&amp;Plan the parts</source>
        <translation>Die Teile &amp;planen</translation>
    </message>
    <message>
        <source>There are no parts yet: type or paste them under Parts (Alt+3).</source>
        <translation>Es gibt noch keine Teile: unter Teile eintippen oder einfügen (Alt+3).</translation>
    </message>
    <message>
        <source>No plan yet. Planning places the parts on the boards, clear of what you marked.</source>
        <translation>Noch kein Plan. Beim Planen kommen die Teile auf die Bretter, frei von dem, was markiert ist.</translation>
    </message>
    <message>
        <source>&lt;b&gt;Best so far.&lt;/b&gt; </source>
        <translation>&lt;b&gt;Bisher das Beste.&lt;/b&gt; </translation>
    </message>
    <message>
        <source>&lt;br&gt;This is the best plan for these boards.</source>
        <translation>&lt;br&gt;Das ist der beste Plan für diese Bretter.</translation>
    </message>
    <message>
        <source>&lt;br&gt;No plan for these boards can be more than %1 % better.</source>
        <translation>&lt;br&gt;Kein Plan für diese Bretter kann mehr als %1 % besser sein.</translation>
    </message>
    <message>
        <source>The search ended after %1 s: %2.</source>
        <translation>Die Suche endete nach %1 s: %2.</translation>
    </message>
    <message>
        <source>Use this plan</source>
        <translation>Diesen Plan nehmen</translation>
    </message>
    <message>
        <source>Selected: %1, %2 × %3</source>
        <translation>Ausgewählt: %1, %2 × %3</translation>
    </message>
    <message>
        <source>Not placed (%1)</source>
        <translation>Nicht untergebracht (%1)</translation>
    </message>
    <message>
        <source>&lt;br&gt;Nearest is &lt;a href=&quot;%1&quot;&gt;board %2&lt;/a&gt;, short by %3 in %4.</source>
        <translation>&lt;br&gt;Am nächsten kommt &lt;a href=&quot;%1&quot;&gt;Brett %2&lt;/a&gt;, es fehlen %3 (%4).</translation>
    </message>
    <message>
        <source>&lt;br&gt;Would fit: %1 (board %2).</source>
        <translation>&lt;br&gt;Würde passen: %1 (Brett %2).</translation>
    </message>
    <message>
        <source>Do that</source>
        <translation>Das tun</translation>
    </message>
    <message>
        <source>Boards used (%1)</source>
        <translation>Benutzte Bretter (%1)</translation>
    </message>
    <message>
        <source>Board %1: 1 piece</source>
        <translation>Brett %1: 1 Stück</translation>
    </message>
    <message>
        <source>Board %1: %2 pieces</source>
        <translation>Brett %1: %2 Stücke</translation>
    </message>
</context>
<context>
    <name>rackside::PlanSession</name>
    <message>
        <source>Every copy of %1 is cut already.</source>
        <translation>Alle Stücke von %1 sind schon geschnitten.</translation>
    </message>
</context>
<context>
    <name>rackside::RackModel</name>
    <message>
        <source>Still missing: %1</source>
        <translation>Es fehlt noch: %1</translation>
    </message>
    <message>
        <source>Board %1, %2 board feet</source>
        <translation>Brett %1, %2 Board Feet</translation>
    </message>
</context>
<context>
    <name>rackside::RackPanel</name>
    <message>
        <source>Find: tag, name, species, location</source>
        <translation>Suchen: Marke, Name, Holzart, Lagerplatz</translation>
    </message>
    <message>
        <source>Find boards</source>
        <translation>Bretter suchen</translation>
    </message>
    <message>
        <source>by number</source>
        <translation>nach Nummer</translation>
    </message>
    <message>
        <source>longest first</source>
        <translation>längste zuerst</translation>
    </message>
    <message>
        <source>widest first</source>
        <translation>breiteste zuerst</translation>
    </message>
    <message>
        <source>most board feet</source>
        <translation>meiste Board Feet</translation>
    </message>
    <message>
        <source>thickest first</source>
        <translation>dickste zuerst</translation>
    </message>
    <message>
        <source>most missing</source>
        <translation>wo am meisten fehlt</translation>
    </message>
    <message>
        <source>Order of the boards</source>
        <translation>Reihenfolge der Bretter</translation>
    </message>
    <message>
        <source>all boards</source>
        <translation>alle Bretter</translation>
    </message>
    <message>
        <source>something missing</source>
        <translation>wo etwas fehlt</translation>
    </message>
    <message>
        <source>in the plan</source>
        <translation>im Plan</translation>
    </message>
    <message>
        <source>not in the plan</source>
        <translation>nicht im Plan</translation>
    </message>
    <message>
        <source>sold, reserved or set aside</source>
        <translation>verkauft, reserviert oder beiseitegestellt</translation>
    </message>
    <message>
        <source>Which boards are shown</source>
        <translation>Welche Bretter zu sehen sind</translation>
    </message>
    <message>
        <source>Boards of the rack</source>
        <translation>Bretter des Lagers</translation>
    </message>
    <message>
        <source>1 board</source>
        <translation>1 Brett</translation>
    </message>
    <message>
        <source>%1 boards</source>
        <translation>%1 Bretter</translation>
    </message>
    <message>
        <source>%1, %2 board feet</source>
        <translation>%1, %2 Board Feet</translation>
    </message>
    <message>
        <source>%1 of %2 shown, %3 board feet</source>
        <translation>%1 von %2 zu sehen, %3 Board Feet</translation>
    </message>
</context>
<context>
    <name>rackside::SelectTool</name>
    <message>
        <source>Drag to move, drag a dot to reshape, double-click a side for a new dot. Arrow keys nudge, Delete removes.</source>
        <translation>Ziehen verschiebt, an einem Punkt ziehen formt um, Doppelklick auf eine Seite setzt einen neuen Punkt. Pfeiltasten schubsen, Entf entfernt.</translation>
    </message>
    <message>
        <source>Click a mark to select it, or press Tab to walk through them. Drag bare wood to move the view.</source>
        <translation>Eine Markierung anklicken, um sie auszuwählen, oder mit Tab durchgehen. Am bloßen Holz ziehen verschiebt die Ansicht.</translation>
    </message>
    <message>
        <source>Select</source>
        <translation>Auswählen</translation>
    </message>
</context>
<context>
    <name>rackside::SheetView</name>
    <message>
        <source>The page</source>
        <translation>Die Seite</translation>
    </message>
</context>
<context>
    <name>rackside::ShopPage</name>
    <message>
        <source>The shop</source>
        <translation>Die Werkstatt</translation>
    </message>
    <message>
        <source>Plans and sheets go by these figures. They are kept with the rack; save them to use the same shop for another one.</source>
        <translation>Nach diesen Zahlen richten sich Pläne und Blätter. Sie bleiben beim Lager; gesichert dienen sie auch einem anderen.</translation>
    </message>
    <message>
        <source>Save this shop as …</source>
        <translation>Diese Werkstatt sichern …</translation>
    </message>
    <message>
        <source>Use another shop …</source>
        <translation>Eine andere Werkstatt nehmen …</translation>
    </message>
    <message>
        <source>Reset all to default</source>
        <translation>Alles auf Vorgabe zurücksetzen</translation>
    </message>
    <message>
        <source>Clearance round marks</source>
        <translation>Abstand um Markierungen</translation>
    </message>
    <message>
        <source>How far a part stays from each kind of mark; past the tips of checks and splits, which run on unseen.</source>
        <translation>Wie weit ein Teil von jeder Art der Markierung wegbleibt; bei Rissen über ihre Spitzen hinaus, denn sie laufen ungesehen weiter.</translation>
    </message>
    <message>
        <source>Reset</source>
        <translation>Zurücksetzen</translation>
    </message>
    <message>
        <source>Reset %1 to its default</source>
        <translation>%1 auf die Vorgabe zurücksetzen</translation>
    </message>
    <message>
        <source>default %1</source>
        <translation>Vorgabe %1</translation>
    </message>
    <message>
        <source>Save this shop</source>
        <translation>Diese Werkstatt sichern</translation>
    </message>
    <message>
        <source>shop.json</source>
        <translation>werkstatt.json</translation>
    </message>
    <message>
        <source>Shop (*.json)</source>
        <translation>Werkstatt (*.json)</translation>
    </message>
    <message>
        <source>Saved to %1.</source>
        <translation>In %1 gesichert.</translation>
    </message>
    <message>
        <source>Use another shop</source>
        <translation>Eine andere Werkstatt nehmen</translation>
    </message>
    <message>
        <source>This rack now goes by the shop of %1.</source>
        <translation>Dieses Lager richtet sich nun nach der Werkstatt aus %1.</translation>
    </message>
</context>
<context>
    <name>rackside::SuggestRow</name>
    <message>
        <source>Suggestions</source>
        <translation>Vorschläge</translation>
    </message>
    <message>
        <source>Nothing to suggest on this board.</source>
        <translation>Auf diesem Brett ist nichts vorzuschlagen.</translation>
    </message>
    <message>
        <source>1 suggestion: Y accepts it, N refuses it.</source>
        <translation>1 Vorschlag: Y nimmt ihn an, N lehnt ihn ab.</translation>
    </message>
    <message>
        <source>%1 suggestions: Y accepts one, N refuses it.</source>
        <translation>%1 Vorschläge: Y nimmt einen an, N lehnt ihn ab.</translation>
    </message>
    <message>
        <source>Look for marks on this board</source>
        <translation>Markierungen auf diesem Brett suchen</translation>
    </message>
    <message>
        <source>Accept the selected suggestion</source>
        <translation>Den ausgewählten Vorschlag annehmen</translation>
    </message>
    <message>
        <source>Refuse the selected suggestion</source>
        <translation>Den ausgewählten Vorschlag ablehnen</translation>
    </message>
    <message>
        <source>Look for marks on all boards</source>
        <translation>Markierungen auf allen Brettern suchen</translation>
    </message>
    <message>
        <source>How sure, to accept all</source>
        <translation>Wie sicher, um alle anzunehmen</translation>
    </message>
    <message>
        <source>%1 % or more</source>
        <translation>%1 % oder mehr</translation>
    </message>
    <message>
        <source>Crayon strokes to read</source>
        <translation>Kreidestriche, die zu lesen sind</translation>
    </message>
    <message>
        <source>None</source>
        <translation>Keine</translation>
    </message>
    <message>
        <source>White</source>
        <translation>Weiß</translation>
    </message>
    <message>
        <source>Yellow</source>
        <translation>Gelb</translation>
    </message>
    <message>
        <source>Red</source>
        <translation>Rot</translation>
    </message>
    <message>
        <source>Blue</source>
        <translation>Blau</translation>
    </message>
    <message>
        <source>This board has no picture to look at: measure it first.</source>
        <translation>Dieses Brett hat kein Bild: bitte zuerst messen.</translation>
    </message>
    <message>
        <source>There is no suggestion on this face. G looks for some.</source>
        <translation>Auf dieser Seite gibt es keinen Vorschlag. G sucht welche.</translation>
    </message>
    <message>
        <source>No suggestion is at least %1 % sure.</source>
        <translation>Kein Vorschlag ist mindestens zu %1 % sicher.</translation>
    </message>
    <message>
        <source>%1 accepted. Ctrl+Z takes them back.</source>
        <translation>%1 angenommen. Strg+Z nimmt sie zurück.</translation>
    </message>
    <message>
        <source>Looking … %1 boards to go</source>
        <translation>Es wird gesucht … noch %1 Bretter</translation>
    </message>
    <message>
        <source>Looking …</source>
        <translation>Es wird gesucht …</translation>
    </message>
    <message>
        <source>Suggestions (%1)</source>
        <translation>Vorschläge (%1)</translation>
    </message>
    <message>
        <source>Stop looking</source>
        <translation>Suche anhalten</translation>
    </message>
    <message>
        <source>Accept all above, %1 % or more</source>
        <translation>Alle annehmen, die %1 % oder mehr haben</translation>
    </message>
</context>
<context>
    <name>rackside::SuggestSession</name>
    <message>
        <source>The board is no longer in the rack; nothing was changed.</source>
        <translation>Das Brett ist nicht mehr im Lager; nichts wurde geändert.</translation>
    </message>
    <message>
        <source>The suggestions could not be laid on the board.</source>
        <translation>Die Vorschläge konnten nicht auf das Brett gelegt werden.</translation>
    </message>
</context>
<context>
    <name>rackside::TapeDialog</name>
    <message>
        <source>Enter boards by tape</source>
        <translation>Bretter mit dem Maßband aufnehmen</translation>
    </message>
    <message>
        <source>For boards without photographs. Their faces are unseen: parts that show are not planned on them until they are photographed.</source>
        <translation>Für Bretter ohne Fotos. Ihre Seiten sind ungesehen: Sichtteile werden auf ihnen erst geplant, wenn sie fotografiert sind.</translation>
    </message>
    <message>
        <source>e.g. cherry</source>
        <translation>z. B. Kirsche</translation>
    </message>
    <message>
        <source>e.g. left bay</source>
        <translation>z. B. linkes Fach</translation>
    </message>
    <message>
        <source>Leave empty when both ends are as wide.</source>
        <translation>Leer lassen, wenn beide Enden gleich breit sind.</translation>
    </message>
    <message>
        <source>Tag number or &amp;name</source>
        <translation>Nummer der Marke oder &amp;Name</translation>
    </message>
    <message>
        <source>&amp;Length</source>
        <translation>&amp;Länge</translation>
    </message>
    <message>
        <source>Width at the left &amp;end</source>
        <translation>Breite am &amp;linken Ende</translation>
    </message>
    <message>
        <source>Width at the &amp;right end</source>
        <translation>Breite am &amp;rechten Ende</translation>
    </message>
    <message>
        <source>&amp;Thickness</source>
        <translation>&amp;Dicke</translation>
    </message>
    <message>
        <source>&amp;Species</source>
        <translation>&amp;Holzart</translation>
    </message>
    <message>
        <source>L&amp;ocation</source>
        <translation>Lager&amp;platz</translation>
    </message>
    <message>
        <source>&amp;Price per board foot</source>
        <translation>&amp;Preis je Board Foot</translation>
    </message>
    <message>
        <source>&amp;Add, and go on to the next</source>
        <translation>&amp;Hinzufügen und weiter zum nächsten</translation>
    </message>
    <message>
        <source>Enter the length.</source>
        <translation>Bitte die Länge eingeben.</translation>
    </message>
    <message>
        <source>Enter the width at the left end.</source>
        <translation>Bitte die Breite am linken Ende eingeben.</translation>
    </message>
    <message>
        <source>The width at the right end is not understood.</source>
        <translation>Die Breite am rechten Ende ist nicht zu verstehen.</translation>
    </message>
    <message>
        <source>The thickness is not understood.</source>
        <translation>Die Dicke ist nicht zu verstehen.</translation>
    </message>
    <message>
        <source>Tag %1 is on the rack already.</source>
        <translation>Marke %1 ist schon im Lager.</translation>
    </message>
    <message>
        <source>board %1</source>
        <translation>Brett %1</translation>
    </message>
    <message>
        <source>Board %1 is on the rack.</source>
        <translation>Brett %1 ist im Lager.</translation>
    </message>
</context>
<context>
    <name>rackside::WelcomePage</name>
    <message>
        <source>&lt;b&gt;1. Print cards and tags.&lt;/b&gt; Cards give the pictures their scale, a tag gives each board its number. Print them at 100 %, check the bar on them with a rule, and glue the cards to flat strips.</source>
        <translation>&lt;b&gt;1. Karten und Marken drucken.&lt;/b&gt; Karten geben den Bildern ihren Maßstab, eine Marke gibt jedem Brett seine Nummer. Mit 100 % drucken, die Prüfstrecke mit einem Stahlmaß nachmessen und die Karten auf ebene Leisten kleben.</translation>
    </message>
    <message>
        <source>&lt;b&gt;2. Lay them.&lt;/b&gt; Three cards along the board, one near each end, flat on the wood. Stick a tag at the end, where it may stay.</source>
        <translation>&lt;b&gt;2. Auslegen.&lt;/b&gt; Drei Karten entlang des Bretts, nahe jedem Ende eine, flach auf dem Holz. Eine Marke ans Ende kleben, wo sie bleiben darf.</translation>
    </message>
    <message>
        <source>&lt;b&gt;3. Take the picture.&lt;/b&gt; From above the middle, the whole board and every card inside the picture. Turn the board over and take the other face too.</source>
        <translation>&lt;b&gt;3. Fotografieren.&lt;/b&gt; Von oben über der Mitte, das ganze Brett und jede Karte im Bild. Das Brett wenden und auch die andere Seite aufnehmen.</translation>
    </message>
    <message>
        <source>&lt;b&gt;4. Drop the pictures here&lt;/b&gt;, as many boards as you like: the tags sort them.</source>
        <translation>&lt;b&gt;4. Die Bilder hier ablegen&lt;/b&gt;, von beliebig vielen Brettern: die Marken ordnen sie.</translation>
    </message>
    <message>
        <source>Print &amp;cards and tags …</source>
        <translation>&amp;Karten und Marken drucken …</translation>
    </message>
    <message>
        <source>Choose &amp;photographs …</source>
        <translation>&amp;Fotos wählen …</translation>
    </message>
    <message>
        <source>&amp;Open a rack …</source>
        <translation>Lager ö&amp;ffnen …</translation>
    </message>
    <message>
        <source>Look at the &amp;sample rack</source>
        <translation>Das &amp;Musterlager ansehen</translation>
    </message>
    <message>
        <source>Start a &amp;rack …</source>
        <translation>Ein &amp;Lager anlegen …</translation>
    </message>
    <message>
        <source>This rack is empty. Here is how the first board gets onto it.</source>
        <translation>Dieses Lager ist leer. So kommt das erste Brett hinein.</translation>
    </message>
    <message>
        <source>Rough boards in, cut list out. Here is how the first board gets in.</source>
        <translation>Rohe Bretter hinein, Zuschnittliste heraus. So kommt das erste Brett hinein.</translation>
    </message>
</context>
</TS>
