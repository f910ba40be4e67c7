"""What layer names say in other languages: common words of the trade.

German, French, Spanish, Portuguese, Italian, Dutch, Swedish, Danish and Norwegian, Finnish, Polish, Czech, Russian,
Turkish, Chinese and Japanese; common practice. A *stem* counts anywhere in a name, a *word* only where it stands
by itself.
"""

import re
import unicodedata

STEMS = {
    "walls": (
        "WAND WAENDE WANDE MAUER CLOISON PARED TABIQUE TRAMEZZ MUUR VAGG VAEGG VEGG SEINA SCIAN DUVAR СТЕН "
        "ПЕРЕГОРОД 墙 牆 壁 間仕切"
    ),
    "columns": (
        "STUETZE STUTZE POTEAU COLUMNA COLUNA PILASTR COLONN KOLOM PELARE SOJLE SOEJLE PILARI SLOUP КОЛОНН "
        "KOLON 柱"
    ),
    "openings": (
        "OEFFNUNG OFFNUNG AUSSPARUNG SCHACHT TREMIE OUVERTURE ABERTURA APERTURA CAVEDIO SPARING OPPNING "
        "ABNING AUKKO OTWOR OTVOR ПРОЕМ ПРИЯМОК ШАХТ BOSLUK 洞 開口 开口"
    ),
    "penetrations": (
        "ABLAUF ABFLUSS ROHRE BODENABL TUYAU CANALISATION DESAGUE TUBERIA BAJANTE SCARIC TUBAZION RIOOL "
        "LEIDING AVLOPP VIEMARI ODPLYW ТРУБ GIDER 排水 管"
    ),
    "outline": (
        "BODENPLATTE SOHLPLATTE FUNDAMENTPLATTE DALLAGE SOLETTA VLOERPLAAT BETONVLOER BETONPLATTA "
        "BETONGPLATTA GULVPLADE TERRANDAK BETONGDEKKE LAATTA ALAPOHJA PLYTA POSADZK ПЛИТ DOSEME 楼板 底板 地板 "
        "スラブ 土間"
    ),
    "decor": (
        "BEMASSUNG COTATION РАЗМЕР ТЕКСТ МЕБЕЛЬ РАМК ШТРИХ MOEBEL MOBILIER MUEBLE MOBILIARIO ARREDO MEUBEL "
        "MEUBILAIR INREDNING KALUSTE MEBLE NABYTEK MOBILYA SCHRIFTFELD CARTOUCHE CAJETIN SQUADRATURA CARTIGLIO "
        "ROTULO RAMECEK CERCEVE SCHRAFF HACHUR 标注 尺寸 寸法 文字 家具 图框 図枠 填充"
    ),
    "elsewhere": (
        "FENSTER FENETRE VENTANA JANELA FINESTR FONSTER VINDU IKKUNA PENCERE TREPPE ESCALIER ESCALERA ESCADA "
        "TREPPEN TOITURE CUBIERTA TELHADO TETTO PROYECC PROJECAO PROIEZ UEBERSTAND UBERSTAND STRECHA КРЫШ ДВЕР ОКН ЛЕСТНИЦ PUERTA DRZWI SCHODY 门 窗 屋"
    ),
}

WORDS = {
    "walls": "MUR MURS MURO MUROS MURI PAREDE PAREDES MUREN STENY STENA",
    "columns": "PILAR PILARES PILARE SLUP SLUPY",
    "openings": "HUECO HUECOS FORO FORI GRUBE FOSSE POZO POZOS HOLE HOLES",
    "penetrations": "ROHR SIPHON RALO RALOS BRUNN SLUK AFLOB KAIVO WPUST VPUST BORU ТРАП",
    "outline": "DALLE DALLES RADIER LOSA LOSAS SOLERA PLATEA LAJE LAJES PLATTA PLATE DESKA PLAK 床 板",
    "decor": (
        "MASSE COTE COTES COTAS COTA QUOTE MAAT MAATVOERING MATT MAAL MITAT KOTY OLCU TEXTE TEXTO TESTO TEKST "
        "TEKSTI YAZI MOBEL MOBLER RAHMEN CADRE MARCO KADER RAM RAMKA ACHSE ACHSEN AXES EJE EJES ASSI OSIE AKS "
        "AKSLAR ОСИ TRAMA RETINO ARCERING SRAFY TARAMA"
    ),
    "elsewhere": (
        "TUER TUEREN TUR PORTE PORTES PORTA PORTAS DEUR DEUREN DORR DORRAR DOR DORE OVI OVET DVERE KAPI KAPILAR "
        "RAAM RAMEN OKNO OKNA DACH TOIT TECHO DAK TAK TAG KATTO CATI SCALA SCALE TRAP TRAPPE PORRAS"
    ),
}

APART = str.maketrans(
    {"Ł": "L", "Ø": "O", "Æ": "AE", "ß": "SS", "ẞ": "SS", "Œ": "OE", "İ": "I", "ı": "I"}
)


def plain(name: str) -> str:
    """A name in capitals without accents."""
    spread = unicodedata.normalize("NFKD", name.upper().translate(APART))
    return "".join(c for c in spread if not unicodedata.combining(c))


def speaks_of(what: str, name: str) -> bool:
    """Whether a name in another language speaks of a part (``walls``, ...), the outline, decor or a thing elsewhere."""
    text = plain(name)
    tokens = set(re.split(r"[\W\d_]+", text))
    return any(stem in text for stem in _STEMS[what]) or bool(tokens & _WORDS[what])


_STEMS = {what: tuple(plain(w) for w in words.split()) for what, words in STEMS.items()}
_WORDS = {what: {plain(w) for w in words.split()} for what, words in WORDS.items()}
