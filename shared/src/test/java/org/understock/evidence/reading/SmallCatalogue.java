package org.understock.evidence.reading;

import java.io.ByteArrayInputStream;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.util.Map;

/** A catalogue made up to try readers and writers; its numbers are no facts. */
final class SmallCatalogue {
  private static final Map<String, String> FILES =
      Map.of(
          "crops.csv", "id,name,species\napple,Apple,Malus domestica\n",
          "traits.csv",
              """
          id,name,definition,subjects,scale,unit,min,max,levels
          trunk,Trunk,Area of the trunk.,stock,contrast,cm2,0,100,
          height,Height,Height of the tree.,stock,quantity,m,0.5,20,
          rot,Rot,Resistance to rot.,stock,levels,,,,low middle high
          rot-share,Rotted,Share rotted.,stock,interval,%,0,100,
          latent-virus,Virus,Tolerance of viruses.,stock,levels,,,,very-susceptible immune
          harvest-day,Harvest,Day of ripening.,variety,interval,day of year,1,366,
          harvest-offset,Harvest,Days from a variety.,variety,interval,days,-150,150,
          s-alleles,Alleles,Alleles.,variety,names,,,,
          compatibility,Union,Whether it holds.,pairing,levels,,,,incompatible compatible
          """,
          "stocks.csv",
              "id,name,kind,crops,clone_of\na-1,A.1,clone,apple,\na-2,A.2,clone,apple,a-1\nas,A stocks,class,apple,\nplums,Plums,class,european-plum japanese-plum,\n",
          "stock-names.csv", "stock,name,note\na-1,Alpha 1,\n",
          "stock-groups.csv", "stock_class,stock\nas,a-1\nas,a-2\n",
          "variety-catalogue.csv", "id,crop,name\nred,apple,Red\ngreen,apple,Green\n",
          "variety-names.csv", "variety,name,note\n",
          "sources.csv",
              "source_id,kind,title,authors_or_body,year,publication,doi_or_isbn,url,note,origin\nbook,handbook,Book,B,1999,,,,,\ntrial,peer-reviewed-trial,Trial,T,n.d.,,,,,\nmemory,memory,Recalled,,,,,,,\n");

  private SmallCatalogue() {}

  static Catalogue read() {
    return Catalogue.read(
        file -> bytes(FILES.get(file)),
        problem -> {
          throw new AssertionError(problem.toString());
        });
  }

  static InputStream bytes(String text) {
    return new ByteArrayInputStream(text.getBytes(StandardCharsets.UTF_8));
  }
}
