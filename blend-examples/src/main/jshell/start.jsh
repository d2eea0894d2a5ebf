import org.surfactantblend.*
import org.surfactantblend.acidity.*
import org.surfactantblend.aqueous.*
import org.surfactantblend.batch.*
import org.surfactantblend.blend.*
import org.surfactantblend.brief.*
import org.surfactantblend.conformance.*
import org.surfactantblend.io.*
import org.surfactantblend.material.*
import org.surfactantblend.mildness.*
import org.surfactantblend.problem.*
import org.surfactantblend.quantity.*
import org.surfactantblend.solve.*
import org.surfactantblend.swap.*
import static org.surfactantblend.material.ChargeClass.*
import java.util.*
import java.util.stream.*
void show(Object o) { System.out.println(Text.wrapped(o.toString().stripTrailing(), 80)); }
var table = Blends.starterTable().priced(Blends.demoPrices());
